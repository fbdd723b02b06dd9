import { Type } from "typebox";
import { quantity, record, tagged } from "../building-blocks.ts";
import { leastLoad, startUp } from "../running-limits.ts";
import { onNetwork } from "./load-heading.ts";

export const Desalination = record("Thermal desalination", {
  kind: Type.Literal("desalination"),
  ...onNetwork,
  order_m3_per_day: quantity("Water ordered", "m³/d", { least: 0 }),
  orderMonths: Type.Optional(
    Type.Array(quantity("Factor of a month", "1", { least: 0, most: 10 }), {
      title: "Factors on the order by month",
      minItems: 12,
      maxItems: 12,
      description: "January to December; 1 where left out.",
    }),
  ),
  drawShares: Type.Optional(
    Type.Array(quantity("Relative draw in an hour", "1", { least: 0 }), {
      title: "Draw by the hour of the day",
      minItems: 24,
      maxItems: 24,
      description: "How the day's order leaves the tank, hour by hour of civil time; even where left out.",
    }),
  ),
  capacity_m3_h: quantity("Plant capacity", "m³/h", { above: 0 }),
  heatUse: tagged("by", "Heat use", [
    record("Performance ratio", {
      by: Type.Literal("performance-ratio"),
      performanceRatio: quantity("Performance ratio", "kg distillate per kg steam", { above: 0, most: 30 }),
      convention: Type.Enum(["2326-kJ-per-kg", "latent-heat"], {
        title: "Convention",
        description:
          "Heat per kg of steam: 2326 kJ (1000 Btu/lb), or the latent heat at the steam temperature.",
      }),
      steam_C: Type.Optional(quantity("Heating steam", "°C", { least: 40, most: 200 })),
    }),
    record("Specific heat use", {
      by: Type.Literal("specific-heat"),
      heat_kWh_per_m3: quantity("Heat", "kWh/m³", { above: 0, most: 1000 }),
    }),
  ]),
  electricity_kWh_per_m3: quantity("Electricity", "kWh/m³", { least: 0, most: 50 }),
  tank_m3: quantity("Product tank", "m³", { least: 0 }),
  ...leastLoad,
  ...startUp,
});
