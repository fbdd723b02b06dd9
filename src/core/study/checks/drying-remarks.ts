import type { Problem } from "../../problem.ts";
import type { Study } from "../schema/study.ts";

export const dryingRemarkCodes = {
  REMARK_DRYING_HEAT: "the heat of a kg of water lies outside what dryers use",
} as const;

/**
 * Evaporating a kg of water at 100 °C takes 2.26 MJ (steam tables); convective dryers use 4 to 6 MJ, spray and
 * flash dryers to 11.5 MJ (Mujumdar, Handbook of Industrial Drying, from memory).
 */
const usual_kWh = { least: 2.26 / 3.6, most: 11.5 / 3.6 } as const;

/** A specific heat use of drying that is less than the water's evaporation, or more than any usual dryer's. */
export function dryingRemarks({ loads }: Study): Problem[] {
  return loads.flatMap((load, i) => {
    const given =
      load.kind === "drying" && load.heatUse.by === "specific-heat"
        ? { heat_kWh: load.heatUse.heat_kWh_per_kgWater, at: "heatUse/heat_kWh_per_kgWater" }
        : load.kind === "batch-drying" && load.product !== undefined
          ? { heat_kWh: load.product.heat_kWh_per_kgWater, at: "product/heat_kWh_per_kgWater" }
          : null;
    if (given === null || (given.heat_kWh >= usual_kWh.least && given.heat_kWh <= usual_kWh.most)) return [];
    const than =
      given.heat_kWh < usual_kWh.least
        ? "less than its evaporation at 100 °C takes (0.63 kWh)"
        : "more than usual dryers use (up to 3.2 kWh)";
    return [
      {
        code: "REMARK_DRYING_HEAT" satisfies keyof typeof dryingRemarkCodes,
        message: `${load.name}: ${given.heat_kWh} kWh for a kg of water is ${than}; check the figure and its unit (1 kWh is 3.6 MJ).`,
        place: { path: `loads/${i}/${given.at}` },
      },
    ];
  });
}
