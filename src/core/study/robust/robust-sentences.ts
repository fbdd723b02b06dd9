import { inWords } from "../in-words.ts";
import type { RobustAnswer } from "./robust-answer.ts";

/** What the answer means, in sentences: the value of knowing and that of the common sizes. */
export function robustSentences({
  study,
  conflicts,
  valueOfKnowing,
  ownSizes,
  expected,
}: Omit<RobustAnswer, "sentences">): string[] {
  const money = (value: number) => `${inWords(value)} ${study.currency} a year`;
  if (valueOfKnowing === null) {
    return [
      `These sizes come nearest; what is asked cannot be kept in every year: ${conflicts.join(" ")} ` +
        "What knowing the year would be worth cannot be told in money.",
    ];
  }
  const knowing =
    valueOfKnowing === 0
      ? "Knowing beforehand which of these years will come is worth nothing: the same sizes are best in each, or cost the same."
      : `Knowing beforehand which of these years will come would save ${money(valueOfKnowing)} ` +
        `(${inWords((100 * valueOfKnowing) / expected.annualCost)} % of the expected annual cost) at most; a better forecast is not worth more than that.`;
  return [knowing, ownSentence(ownSizes, money)];
}

function ownSentence(
  { valueOfCommonSizes, shortfalls }: RobustAnswer["ownSizes"],
  money: (value: number) => string,
): string {
  if (valueOfCommonSizes === null)
    return `The sizes found for the study's own year would not do in all of these: ${shortfalls.join(" ")}`;
  if (valueOfCommonSizes === 0)
    return "The sizes found for the study's own year alone do as well in these years as the common ones.";
  return `Against the sizes found for the study's own year alone, the common sizes save ${money(valueOfCommonSizes)} in expectation.`;
}
