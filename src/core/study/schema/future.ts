import { type Static, Type } from "typebox";
import { Id, quantity, record, text } from "./building-blocks.ts";

/** A year as it may turn out, for sizes that must suit several. */
export const Future = record(
  "Possible year",
  {
    id: Id,
    name: text("Name", 80),
    probability: quantity("Probability", "1", { above: 0, most: 1 }),
    weatherFile: Type.Optional(
      text(
        "Weather file",
        300,
        "Another weather year of the same site, EPW, TMY3 CSV or plain CSV; the study's own where left out.",
      ),
    ),
    weatherYear: Type.Optional(
      Type.Integer({
        title: "Year to take of the weather file",
        minimum: 1900,
        maximum: 2100,
        description: "Of the file named here, or of the study's own, where it holds several years.",
      }),
    ),
    fuelPriceFactor: Type.Optional(
      quantity("Factor on fuel prices", "1", {
        least: 0,
        most: 20,
        description: "On the price of every fuel, in every year of the period; 1 where left out.",
      }),
    ),
    electricityPriceFactor: Type.Optional(
      quantity("Factor on the electricity price", "1", {
        least: 0,
        most: 20,
        description: "1 where left out.",
      }),
    ),
    demandFactor: Type.Optional(
      quantity("Factor on demand", "1", {
        above: 0,
        most: 10,
        description:
          "On heat, cold and water drawn, and on electricity that goes with them; a batch keeps its heat. 1 where left out.",
      }),
    ),
  },
  "What it does not give is as in the study.",
);
export type Future = Static<typeof Future>;
