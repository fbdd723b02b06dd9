import { Type } from "typebox";
import { quantity, record, tagged } from "../building-blocks.ts";
import { Profile } from "../profile.ts";
import { nameplate, onNetwork } from "./load-heading.ts";

/** A consumer on a thermal oil loop, by flow and temperatures. */
export const ThermalOilLoad = record("Thermal oil", {
  kind: Type.Literal("thermal-oil"),
  ...onNetwork,
  ...nameplate,
  flow: Profile,
  flowIs: Type.Enum(["kg/h", "m3/h"], { title: "Flow is in" }),
  meter_C: Type.Optional(
    quantity("Metered at", "°C", {
      least: 12,
      most: 400,
      description: "For a flow in m³/h; where left out, the temperature at which the oil comes back.",
    }),
  ),
  in_C: quantity("To the consumer", "°C", { least: 12, most: 400 }),
  out_C: quantity("Back from it", "°C", { least: 12, most: 400 }),
  oil: tagged("by", "Oil", [
    record("Eutectic", { by: Type.Literal("eutectic") }, "Diphenyl and diphenyl oxide."),
    record("Data sheet", {
      by: Type.Literal("data-sheet"),
      heatCapacity_kJ_kgK: quantity("Specific heat at the mean temperature", "kJ/(kg·K)", {
        above: 0.5,
        most: 5,
      }),
      density_kg_m3: Type.Optional(
        quantity("Density at the meter", "kg/m³", {
          least: 500,
          most: 1300,
          description: "Needed for a flow in m³/h.",
        }),
      ),
      highest_C: quantity("Highest bulk temperature", "°C", { least: 20, most: 400 }),
      flash_C: Type.Optional(quantity("Flash point", "°C", { least: 20, most: 400 })),
    }),
  ]),
});
