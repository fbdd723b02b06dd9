/*
 * Version 1 of the study file kept a week calendar inside each profile. Version 2 has calendars of their
 * own, which profiles name. The old file is not validated yet, so nothing of its shape is relied on:
 * what does not fit is carried over as it is, for the schema to tell.
 */

type Loose = Record<string, unknown>;

/** A study of version 1 as one of version 2: equal weeks become one calendar; origins follow their values. */
export function calendarsApart(study: object): object {
  const moved = structuredClone(study) as Loose;
  moved.formatVersion = 2;
  if (moved.calendars !== undefined) return moved;
  const calendars: Loose[] = [];
  const idByWeek = new Map<string, string>();
  const newPaths = new Map<string, string>();
  const taken = idsOf(moved);
  for (const load of listOf(moved.loads)) {
    for (const [property, profile] of Object.entries(load)) {
      if (!isObject(profile) || profile.from !== "calendar" || !isObject(profile.week)) continue;
      const { week, ...rest } = profile;
      const key = JSON.stringify(week);
      const known = idByWeek.get(key);
      const id = known ?? freeId(`${textOf(load.id)}-days`, taken);
      if (known === undefined) {
        idByWeek.set(key, id);
        calendars.push(calendarOf(id, textOf(load.name), week));
      }
      load[property] = { ...rest, calendar: id };
      newPaths.set(`loads/${textOf(load.id)}/${property}/week`, `calendars/${id}`);
    }
  }
  moved.calendars = calendars;
  for (const origin of listOf(moved.origins)) followValue(origin, newPaths);
  return moved;
}

function calendarOf(id: string, loadName: string, week: Loose): Loose {
  const { months, closed, ...days } = week;
  return {
    id,
    name: `Working days of ${loadName}`.slice(0, 80),
    week: { by: "hours", ...days },
    ...(months === undefined ? {} : { months }),
    ...(closed === undefined ? {} : { closed }),
  };
}

/** `loads/steam/flow_kg_h/week/saturday` becomes `calendars/steam-days/week/saturday`; months and closures stood in the week. */
function followValue(origin: Loose, newPaths: ReadonlyMap<string, string>): void {
  const { path } = origin;
  if (typeof path !== "string") return;
  for (const [before, after] of newPaths) {
    if (path === before) origin.path = after;
    else if (path.startsWith(`${before}/`)) {
      const rest = path.slice(before.length + 1);
      origin.path = /^(months|closed)(\/|$)/.test(rest) ? `${after}/${rest}` : `${after}/week/${rest}`;
    }
  }
}

function idsOf(study: Loose): Set<string> {
  const lists = ["networks", "loads", "collectors", "stores", "stepDowns", "chillers", "backups"];
  return new Set(lists.flatMap((list) => listOf(study[list]).map(({ id }) => textOf(id))));
}

function freeId(wanted: string, taken: Set<string>): string {
  const base = /^[a-z][a-z0-9-]*$/.test(wanted) ? wanted.slice(0, 37) : "working-days";
  let id = base;
  for (let number = 2; taken.has(id); number += 1) id = `${base}-${number}`;
  taken.add(id);
  return id;
}

function listOf(value: unknown): Loose[] {
  return Array.isArray(value) ? value.filter(isObject) : [];
}

function isObject(value: unknown): value is Loose {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function textOf(value: unknown): string {
  return typeof value === "string" ? value : "";
}
