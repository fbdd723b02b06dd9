import { Type } from "typebox";
import { quantity, record, share, tagged, text } from "../building-blocks.ts";
import { Profile } from "../profile.ts";
import { nameplate, onNetwork } from "./load-heading.ts";

const Fan = record(
  "Fan",
  {
    pressure_Pa: quantity("Pressure of the fan", "Pa", { above: 0, most: 10_000 }),
    efficiency: quantity("Efficiency of fan and motor", "1", { above: 0.05, most: 0.95 }),
  },
  "Moves the air through the dryer, where it is hottest; its heat is not counted as drying heat.",
);

export const Drying = record("Drying", {
  kind: Type.Literal("drying"),
  ...onNetwork,
  ...nameplate,
  product: Type.Optional(text("Product", 80)),
  wetProduct_kg_h: Profile,
  moistureIn: share("Moisture in, wet basis"),
  moistureOut: share("Moisture out, wet basis"),
  heatUse: tagged("by", "Heat use", [
    record("Specific heat use", {
      by: Type.Literal("specific-heat"),
      heat_kWh_per_kgWater: quantity("Heat", "kWh per kg of water removed", { above: 0, most: 10 }),
      electricity_kWh_per_kgWater: Type.Optional(
        quantity("Electricity of fans and drives", "kWh per kg of water removed", { least: 0, most: 5 }),
      ),
    }),
    record("Air", {
      by: Type.Literal("air"),
      air_C: quantity("Drying air", "°C", { least: 30, most: 300 }),
      exhaustRelativeHumidity: quantity("Exhaust relative humidity", "1", { above: 0, most: 1 }),
      recirculatedShare: Type.Optional(
        quantity("Exhaust brought back, share of the air through the dryer", "1", {
          least: 0,
          most: 0.98,
          description: "0 where left out: air passes once.",
        }),
      ),
      recoveryEffectiveness: Type.Optional(
        quantity("Fresh air warmed by the exhaust, share of the way", "1", {
          least: 0,
          most: 0.95,
          description:
            "Effectiveness of the exchanger; none where left out. The exhaust is not cooled below its dew point.",
        }),
      ),
      fan: Type.Optional(Fan),
      heatLossShare: quantity("Heat lost by the dryer, share of air heating", "1", { least: 0, most: 2 }),
    }),
  ]),
});
