import { type Static, Type } from "typebox";
import { quantity, record, text } from "./building-blocks.ts";
import { HourFactors, MonthFactors, YearFactors } from "./hour-factors.ts";

/** Fuels with IPCC 2006 defaults (core/economics/fuels.ts), or one of the user's own. */
export const fuelKinds = [
  "natural-gas",
  "gas-oil",
  "residual-fuel-oil",
  "lpg",
  "bituminous-coal",
  "lignite",
  "wood",
  "electricity",
  "waste-heat",
  "other",
] as const;

export const Fuel = record("Fuel", {
  kind: Type.Enum([...fuelKinds], { title: "Fuel" }),
  price_per_kWh: quantity("Price in the first year", "currency per kWh of fuel", { least: -10, most: 100 }),
  hourFactors: HourFactors,
  monthFactors: MonthFactors,
  priceFile: Type.Optional(
    text(
      "File of prices",
      300,
      "CSV with 8760 hourly prices of the fuel, on the heating value below, or a published electricity tariff as JSON; replaces the price above.",
    ),
  ),
  heatingValue: Type.Enum(["net", "gross"], { title: "Price and efficiency are on the heating value" }),
  escalation_per_year: quantity("Price rise", "1/a", { least: -0.2, most: 0.3 }),
  yearFactors: YearFactors,
  co2_kg_per_kWh: Type.Optional(
    quantity("CO2 per kWh, net heating value", "kg/kWh", {
      least: 0,
      most: 2,
      description:
        "IPCC 2006 default where left out; that of the study's electricity for electricity, 0 for waste heat.",
    }),
  ),
});
export type Fuel = Static<typeof Fuel>;
