import type { Problem } from "../../problem.ts";
import type { Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/** Heat goes from hot to cool by at least the approach at both ends, once a pair and never in a circle. */
export function checkStepDowns({ stepDowns, networks }: Study): Problem[] {
  const problems: Problem[] = [];
  const pairs = new Set<string>();
  stepDowns.forEach((step, i) => {
    const path = `stepDowns/${i}`;
    if (step.from === step.to) {
      problems.push(
        fault(
          "STUDY_STEP_DOWN",
          `${path}/to`,
          `The step-down leads from "${step.from}" to itself; two networks are needed.`,
        ),
      );
      return;
    }
    const pair = `${step.from} > ${step.to}`;
    if (pairs.has(pair))
      problems.push(
        fault(
          "STUDY_STEP_DOWN_TWICE",
          path,
          `There is a step-down from "${step.from}" to "${step.to}" already; one is allowed.`,
        ),
      );
    pairs.add(pair);
    const hot = networks.find(({ id }) => id === step.from);
    const cool = networks.find(({ id }) => id === step.to);
    if (hot === undefined || cool === undefined) return;
    for (const [end, name] of [
      ["supply_C", "supplies"],
      ["return_C", "returns at"],
    ] as const)
      if (!(hot[end] >= cool[end] + step.approach_K))
        problems.push(
          fault(
            "STUDY_STEP_DOWN",
            `${path}/from`,
            `"${hot.id}" ${name} ${hot[end]} °C and "${cool.id}" ${cool[end]} °C; with an approach of ${step.approach_K} K, at least ${cool[end] + step.approach_K} °C are needed.`,
          ),
        );
  });
  const circle = findCircle(stepDowns);
  if (circle !== null)
    problems.push(
      fault(
        "STUDY_STEP_DOWN_CYCLE",
        "stepDowns",
        `The step-downs ${circle.join(" → ")} lead in a circle; heat only steps down.`,
      ),
    );
  return problems;
}

/** Networks of a circle, the first repeated at the end; null where there is none. A step to itself does not count. */
function findCircle(steps: Study["stepDowns"]): string[] | null {
  const onwards = (id: string) =>
    steps.filter(({ from, to }) => from === id && to !== id).map(({ to }) => to);
  const clear = new Set<string>();
  const walk = (id: string, trail: readonly string[]): string[] | null => {
    if (trail.includes(id)) return [...trail.slice(trail.indexOf(id)), id];
    if (clear.has(id)) return null;
    for (const next of onwards(id)) {
      const circle = walk(next, [...trail, id]);
      if (circle !== null) return circle;
    }
    clear.add(id);
    return null;
  };
  for (const { from } of steps) {
    const circle = walk(from, []);
    if (circle !== null) return circle;
  }
  return null;
}
