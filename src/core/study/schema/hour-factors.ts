import { Type } from "typebox";
import { quantity } from "./building-blocks.ts";

/** So many factors on a price, left out where it does not change. */
const factorsBy = (period: string, count: number, description: string) =>
  Type.Optional(
    Type.Array(quantity("Factor on the price", "1", { least: -10, most: 20 }), {
      title: `Factors on the price by ${period}`,
      minItems: count,
      maxItems: count,
      description,
    }),
  );

export const HourFactors = factorsBy(
  "the hour of the day",
  24,
  "By civil hour of the day; 1 where left out.",
);

export const MonthFactors = factorsBy(
  "month",
  12,
  "January to December, by civil month; 1 where left out. Not on a file of prices.",
);

export const YearFactors = Type.Optional(
  Type.Array(quantity("Price of a year per price of the first", "1", { least: 0, most: 20 }), {
    title: "Price by year, per price of the first year",
    minItems: 1,
    maxItems: 60,
    description:
      "From the first year, whose factor is 1; years after the last go on from it by the price rise. Real, without inflation.",
  }),
);
