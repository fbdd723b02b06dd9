import { type Static, Type } from "typebox";
import { quantity, record } from "./building-blocks.ts";

export const Frost = record(
  "Frost protection",
  {
    by: Type.Enum(["electric", "drain"], { title: "Kept from freezing by" }),
    keepAbove_C: quantity("Never colder than", "°C", {
      least: -60,
      most: 300,
      description: "Of the fluid in collectors and pipes; water some 5 °C, molten salt some 260 °C.",
    }),
    refill_h: Type.Optional(
      Type.Integer({
        title: "Heat lost to filling a drained loop",
        unit: "h of sun",
        minimum: 0,
        maximum: 24,
        description: "Only where it is drained; 1 if left out.",
      }),
    ),
  },
  "Left out: nothing keeps the loop from freezing, and the figures count nothing for it.",
);
export type Frost = Static<typeof Frost>;
