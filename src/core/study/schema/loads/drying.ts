import { Type } from "typebox";
import { quantity, record, share, tagged } from "../building-blocks.ts";
import { Profile } from "../profile.ts";
import { nameplate, onNetwork } from "./load-heading.ts";

export const Drying = record("Drying", {
  kind: Type.Literal("drying"),
  ...onNetwork,
  ...nameplate,
  wetProduct_kg_h: Profile,
  moistureIn: share("Moisture in, wet basis"),
  moistureOut: share("Moisture out, wet basis"),
  heatUse: tagged("by", "Heat use", [
    record("Specific heat use", {
      by: Type.Literal("specific-heat"),
      heat_kWh_per_kgWater: quantity("Heat", "kWh per kg of water removed", { above: 0, most: 10 }),
    }),
    record("Once-through air", {
      by: Type.Literal("air"),
      air_C: quantity("Drying air", "°C", { least: 30, most: 300 }),
      exhaustRelativeHumidity: quantity("Exhaust relative humidity", "1", { above: 0, most: 1 }),
      heatLossShare: quantity("Heat lost by the dryer, share of air heating", "1", { least: 0, most: 2 }),
    }),
  ]),
});
