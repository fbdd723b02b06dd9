import { Type } from "typebox";
import { quantity, record } from "../building-blocks.ts";
import { Profile } from "../profile.ts";
import { onNetwork } from "./load-heading.ts";

/** Water for washing and cleaning, drawn hot from a tank that is heated when it suits the plant. */
export const HotWater = record("Hot water", {
  kind: Type.Literal("hot-water"),
  ...onNetwork,
  draw_m3_h: Profile,
  use_C: quantity("Drawn at", "°C", { least: 20, most: 95 }),
  coldWater_C: quantity("Cold water", "°C", { least: 0, most: 60 }),
  coldWaterMonths_C: Type.Optional(
    Type.Array(quantity("Cold water of a month", "°C", { least: 0, most: 60 }), {
      title: "Cold water by month",
      minItems: 12,
      maxItems: 12,
      description: "January to December, in place of the one temperature.",
    }),
  ),
  tank_m3: quantity("Tank", "m³", { least: 0, most: 1e5 }),
  heater_kW: quantity("Heat exchanger of the tank", "kW", { above: 0 }),
  standingLoss_kW: Type.Optional(
    quantity("Standing loss of the tank", "kW", {
      least: 0,
      description: "Of the full tank, counted in every hour; none where left out.",
    }),
  ),
  recirculation_kW: Type.Optional(
    quantity("Loss of the recirculation", "kW", {
      least: 0,
      description: "Of pipes kept hot round the clock; none where left out.",
    }),
  ),
});
