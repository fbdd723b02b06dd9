import { found, type Outcome, type Problem, refused } from "../../core/problem.ts";
import { namedCalendars } from "../../core/study/named-calendars.ts";
import type { Origin, Study } from "../../core/study/schema/study.ts";
import { Study as StudySchema } from "../../core/study/schema/study.ts";
import type { formProblems } from "./form-problems.ts";
import type { SchemaNode } from "./schema-node.ts";
import { startingItem } from "./starting-values.ts";
import type { ItemList } from "./study-paths.ts";

/** The study with one more item, whose values are marked as assumptions. Gives the item's index too. */
export function addItem(
  study: Study,
  list: ItemList,
  kind: string,
  given?: { readonly item: { readonly id: string }; readonly origins: readonly Origin[] },
): Outcome<{ study: Study; index: number }> {
  const most = (StudySchema as unknown as SchemaNode).properties?.[list]?.maxItems ?? 1;
  if (study[list].length >= most) {
    return fault("FORM_TOO_MANY", `A study has at most ${most} entries in ${list}; remove one first.`, list);
  }
  const item = given?.item ?? startingItem(study, list, kind);
  if (item === null) {
    return fault("FORM_CHOICE", `Nothing could be added: ${whatIsMissing(list)}`, list);
  }
  const source = "Starting value of this program's form, not of your equipment.";
  const origins = given?.origins ?? [{ path: `${list}/${item.id}`, status: "assumption" as const, source }];
  const changed = {
    ...study,
    [list]: [...study[list], item],
    origins: [...(study.origins ?? []), ...origins],
  } as Study;
  return found({ study: changed, index: study[list].length });
}

/** The study without an item; refused while anything else of the study names it. */
export function removeItem(study: Study, list: ItemList, id: string): Outcome<Study> {
  const users = usersOf(study, list, id);
  if (users.length > 0) {
    const message = `${id} cannot be removed: ${users.join(", ")} still ${users.length === 1 ? "uses" : "use"} it.`;
    return fault("FORM_STILL_USED", message, list);
  }
  const rest = (study[list] as readonly { readonly id: string }[]).filter((item) => item.id !== id);
  const head = `${list}/${id}`;
  const origins = (study.origins ?? []).filter(({ path }) => path !== head && !path.startsWith(`${head}/`));
  return found({ ...study, [list]: rest, ...(study.origins === undefined ? {} : { origins }) } as Study);
}

function usersOf(study: Study, list: ItemList, id: string): string[] {
  const nameOf = (item: { readonly id: string; readonly name?: string }) => item.name ?? item.id;
  if (list === "loads") {
    return [...study.stores, ...study.chillers].filter(({ load }) => load === id).map(nameOf);
  }
  if (list === "calendars") {
    return namedCalendars(study)
      .filter((named) => named.id === id)
      .map(({ user }) => user);
  }
  if (list !== "networks") return [];
  const plain = [...study.loads, ...study.stores, ...study.chillers, ...study.backups]
    .filter((item) => "network" in item && item.network === id)
    .map(nameOf);
  const downs = study.stepDowns.filter(({ from, to }) => from === id || to === id).map(nameOf);
  const collectors = study.collectors.filter(({ networks }) => networks.includes(id)).map(nameOf);
  return [...plain, ...downs, ...collectors];
}

function whatIsMissing(list: ItemList): string {
  if (list === "stepDowns") return "a step-down needs two heat networks.";
  if (list === "chillers")
    return "an absorption chiller needs a cooling load and a heat network of at least 80 °C.";
  if (list === "stores") return "a cold store needs a cooling load; a heat store needs a heat network.";
  return "it needs a heat network first, or a kind that the study knows.";
}

function fault(code: keyof typeof formProblems, message: string, path: string): Outcome<never> {
  const problem: Problem = { code, message, place: { path } };
  return refused([problem]);
}
