import { namedCalendars } from "../../core/study/named-calendars.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { itemLists } from "./study-paths.ts";

type Loose = Record<string, unknown>;

/** Where an item of the same list position got another id, everything that named it names it anew. */
export function followRenames(before: Study, after: Study): void {
  for (const list of itemLists) {
    if (before[list].length !== after[list].length) continue;
    for (const [index, item] of before[list].entries()) {
      const now = after[list][index]?.id;
      if (typeof now !== "string" || now === item.id) continue;
      if (before[list].some(({ id }) => id === now)) continue;
      if (list === "networks") renameNetwork(after, item.id, now);
      if (list === "loads") renameLoad(after, item.id, now);
      if (list === "calendars") renameCalendar(after, item.id, now);
      for (const origin of after.origins ?? []) {
        const head = `${list}/${item.id}/`;
        if (origin.path.startsWith(head)) {
          (origin as Loose).path = `${list}/${now}/${origin.path.slice(head.length)}`;
        }
      }
    }
  }
}

function renameNetwork(study: Study, old: string, now: string): void {
  const items: Loose[] = [
    ...study.loads,
    ...study.stores,
    ...study.stepDowns,
    ...study.chillers,
    ...study.backups,
  ];
  for (const item of items)
    for (const key of ["network", "from", "to"]) if (item[key] === old) item[key] = now;
  for (const collector of study.collectors) {
    (collector as Loose).networks = collector.networks.map((id) => (id === old ? now : id));
  }
}

function renameLoad(study: Study, old: string, now: string): void {
  const items: Loose[] = [...study.stores, ...study.chillers];
  for (const item of items) if (item.load === old) item.load = now;
}

function renameCalendar(study: Study, old: string, now: string): void {
  for (const { id, holder } of namedCalendars(study)) if (id === old) (holder as Loose).calendar = now;
}
