import { found, type Outcome, refused } from "../../core/problem.ts";
import { pinchFigures } from "../../core/study/pinch-figures.ts";
import type { LoadOf, Study } from "../../core/study/schema/study.ts";
import { Study as StudySchema } from "../../core/study/schema/study.ts";
import type { formProblems } from "./form-problems.ts";
import type { SchemaNode } from "./schema-node.ts";
import { freeId } from "./starting-values.ts";

const sourceStart = "Pinch target";

/** Whether a load was made from the process streams, and not changed as a whole since. */
export function isTakenFromStreams(study: Study, loadId: string): boolean {
  return (study.origins ?? []).some(
    ({ path, source }) => path === `loads/${loadId}` && source.startsWith(sourceStart),
  );
}

/**
 * The study with the streams' least heating as a load on each network that can carry some of it, in place
 * of loads made so before. `like` names a process heat whose calendar they follow; empty for every hour.
 */
export function takeStreams(study: Study, like: string): Outcome<Study> {
  const figures = pinchFigures(study);
  const carried = figures?.networks.filter(({ heat_kW }) => heat_kW > 0) ?? [];
  if (figures === null || carried.length === 0)
    return fault("FORM_CHOICE", "The streams want no heat that a heat network of the study could carry.");
  const pattern = study.loads.find(
    (load): load is LoadOf<"process-heat"> => load.id === like && load.kind === "process-heat",
  );
  const calendar = pattern?.heat_kW.from === "calendar" ? pattern.heat_kW : null;
  if (like !== "" && calendar === null)
    return fault("FORM_CHOICE", `"${like}" is not a process heat with a calendar; choose one of the list.`);
  const own = study.loads.filter(({ id }) => !isTakenFromStreams(study, id));
  const most = (StudySchema as unknown as SchemaNode).properties?.loads?.maxItems ?? 1;
  if (own.length + carried.length > most)
    return fault("FORM_TOO_MANY", `A study has at most ${most} entries in loads; remove one first.`);

  let changed: Study = {
    ...study,
    loads: own,
    origins: (study.origins ?? []).filter(({ path }) => !isOfTaken(study, path)),
  };
  for (const { network, heat_kW } of carried) {
    const level = Number(heat_kW.toPrecision(6));
    const id = freeId(changed, `streams-${network}`.slice(0, 36));
    const name = study.networks.find((one) => one.id === network)?.name ?? network;
    const load: LoadOf<"process-heat"> = {
      kind: "process-heat",
      id,
      name: `Process streams on ${name}`.slice(0, 80),
      network,
      heat_kW: calendar === null ? { from: "constant", level } : { ...calendar, level },
    };
    const source =
      `${sourceStart}: least heating of the process streams with ${figures.leastApproach_K} K between streams, ` +
      "for exchangers that are not built yet.";
    changed = {
      ...changed,
      loads: [...changed.loads, load],
      origins: [...(changed.origins ?? []), { path: `loads/${id}`, status: "assumption", source }],
    };
  }
  return found(changed);
}

function isOfTaken(study: Study, path: string): boolean {
  const [list, id] = path.split("/");
  return list === "loads" && id !== undefined && isTakenFromStreams(study, id);
}

function fault(code: keyof typeof formProblems, message: string): Outcome<never> {
  return refused([{ code, message, place: { path: "streams" } }]);
}
