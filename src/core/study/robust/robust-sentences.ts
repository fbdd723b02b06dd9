import { inWords } from "../in-words.ts";
import type { PlantModel } from "../plant-model.ts";
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

/** The common apertures as counts of modules: they are not rounded, as those of the study's own year are. */
export function notWholeModules({ fields }: Pick<PlantModel, "fields">, fields_m2: Float64Array): string[] {
  return fields.flatMap(({ collector: { id, name, module_m2 } }, f) => {
    const aperture_m2 = fields_m2[f]!;
    if (module_m2 === undefined || !(aperture_m2 > 1e-6 * module_m2)) return [];
    return [
      `"${name}" (${id}) has ${inWords(aperture_m2)} m² of new aperture in common, ${inWords(aperture_m2 / module_m2)} modules of ${module_m2} m²: sizes in common are not rounded to whole modules.`,
    ];
  });
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
