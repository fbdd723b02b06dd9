import { Type } from "typebox";
import { quantity } from "./building-blocks.ts";

export const HourFactors = Type.Optional(
  Type.Array(quantity("Factor on the price", "1", { least: -10, most: 20 }), {
    title: "Factors on the price by the hour of the day",
    minItems: 24,
    maxItems: 24,
    description: "By civil hour of the day; 1 where left out.",
  }),
);
