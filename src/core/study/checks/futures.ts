import type { Problem } from "../../problem.ts";
import type { Study } from "../schema/study.ts";

/** What possible years must keep to; none of it keeps the study's own year from being sized. */
export const futureProblems = {
  FUTURES_NONE: "sizes for several possible years need at least one in the study",
  FUTURES_PROBABILITIES: "the probabilities of the possible years must sum to 1",
  FUTURES_ID_TWICE: "an id may be used once among the possible years",
  FUTURES_FILE_NAME: "a weather file's name cannot be empty",
} as const;

/** By how much the probabilities may miss 1, for thirds written with six digits and the like. */
export const probabilityTolerance = 1e-4;

/** Every fault of the possible years among each other. The study must fit the schema. */
export function checkFutures({ futures = [] }: Study): Problem[] {
  const problems: Problem[] = [];
  const fault = (code: keyof typeof futureProblems, path: string, message: string) => {
    problems.push({ code, message, place: { path } });
  };
  if (futures.length === 0) {
    fault("FUTURES_NONE", "futures", "The study names no possible years; name 1 to 30 with probabilities.");
    return problems;
  }
  const sum = futures.reduce((all, { probability }) => all + probability, 0);
  if (!(Math.abs(sum - 1) <= probabilityTolerance))
    fault(
      "FUTURES_PROBABILITIES",
      "futures",
      `The probabilities of the possible years sum to ${Number(sum.toPrecision(6))}; they must sum to 1.`,
    );
  futures.forEach(({ id, weatherFile }, i) => {
    const first = futures.findIndex((other) => other.id === id);
    if (first < i)
      fault(
        "FUTURES_ID_TWICE",
        `futures/${i}/id`,
        `The id "${id}" is already that of futures/${first}; every possible year needs its own.`,
      );
    if (weatherFile !== undefined && weatherFile.trim() === "")
      fault(
        "FUTURES_FILE_NAME",
        `futures/${i}/weatherFile`,
        "The weather file of a possible year has no name; name it or leave it out.",
      );
  });
  return problems;
}
