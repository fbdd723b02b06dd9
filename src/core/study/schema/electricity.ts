import { type Static, Type } from "typebox";
import { quantity, record, text } from "./building-blocks.ts";
import { HourFactors, MonthFactors, YearFactors } from "./hour-factors.ts";

export const Electricity = record("Electricity", {
  price_per_kWh: quantity("Price in the first year", "currency/kWh", { least: -10, most: 100 }),
  hourFactors: HourFactors,
  monthFactors: MonthFactors,
  priceFile: Type.Optional(
    text(
      "File of prices",
      300,
      "CSV with 8760 hourly prices, or a published tariff as JSON with periods by month and hour; replaces the price above.",
    ),
  ),
  escalation_per_year: quantity("Price rise", "1/a", { least: -0.2, most: 0.3 }),
  yearFactors: YearFactors,
  co2_kg_per_kWh: Type.Optional(quantity("CO2", "kg/kWh", { least: 0, most: 2 })),
});
export type Electricity = Static<typeof Electricity>;
