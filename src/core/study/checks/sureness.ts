import type { Problem } from "../../problem.ts";
import { toldBy } from "../../sureness/uncertain-inputs.ts";
import type { Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/** Ranges of uncertain inputs: in order, once each, and factors above 0. */
export function checkSureness({ sureness }: Study): Problem[] {
  const seen = new Set<string>();
  return (sureness?.ranges ?? []).flatMap(({ input, low, high }, i) => {
    const path = `sureness/ranges/${i}`;
    const problems: Problem[] = [];
    if (!(low <= high))
      problems.push(
        fault(
          "STUDY_RANGE",
          `${path}/high`,
          `The range of ${input} runs from ${low} to ${high}; low must not be above high.`,
        ),
      );
    if (toldBy(input) === "factor" && !(low > 0))
      problems.push(
        fault(
          "STUDY_RANGE",
          `${path}/low`,
          `The range of ${input} begins at a factor of ${low}; factors must be above 0.`,
        ),
      );
    if (seen.has(input))
      problems.push(fault("STUDY_RANGE", `${path}/input`, `There are two ranges of ${input}; give one.`));
    seen.add(input);
    return problems;
  });
}
