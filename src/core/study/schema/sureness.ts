import { type Static, Type } from "typebox";
import { quantity, record } from "./building-blocks.ts";

/** What may turn out otherwise than the study says; core/sureness/uncertain-inputs.ts holds words and usual ranges. */
export const uncertainInputs = [
  "fuel-price",
  "fuel-price-rise",
  "electricity-price",
  "carbon-price",
  "collector-price",
  "film-price",
  "film-life",
  "store-price",
  "other-price",
  "upkeep",
  "discount-rate",
  "sunshine",
  "optics",
  "heat-loss",
  "demand",
] as const;

const Range = record("Range of an input", {
  input: Type.Enum([...uncertainInputs], { title: "Input" }),
  low: quantity("Low", "1", {
    least: -1,
    most: 20,
    description:
      "A factor on the study's value, 0.8 for 20 % less; of rates what is added to them, -0.02 for two points less.",
  }),
  high: quantity("High", "1", { least: -1, most: 20 }),
  distribution: Type.Enum(["triangular", "uniform", "normal", "none"], {
    title: "Drawn from",
    description:
      "triangular: from low to high with the study's value the likeliest. normal: mean and spread such that a tenth lies below low and a tenth above high. none: not drawn.",
  }),
});

export const Sureness = record(
  "How sure",
  {
    ranges: Type.Array(Range, { title: "Ranges of your own", maxItems: uncertainInputs.length }),
    draws: Type.Integer({ title: "Draws", minimum: 10, maximum: 20_000 }),
    seed: Type.Integer({
      title: "Seed",
      minimum: 0,
      maximum: 2_147_483_647,
      description: "The same seed gives the same draws.",
    }),
  },
  "Ranges in place of the usual ones, and how many plants on other prices and suns are drawn. They change no other figure.",
);
export type Sureness = Static<typeof Sureness>;
