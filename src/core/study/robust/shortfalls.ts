import type { Plan } from "../../dispatch/read-plan.ts";
import { sum } from "../../series.ts";
import { fractionTolerance } from "../explain-conflicts.ts";
import { inWords } from "../in-words.ts";

/** Amounts below this, a year, are rounding: kWh, m³, m² or currency. */
const tolerance = 1e-3;

/** What a plan leaves unmet in a year. */
export function lacksOf({ hours }: Plan) {
  const over = <T>(items: readonly T[], series: (item: T) => Float64Array) =>
    items.reduce((all, item) => all + sum(series(item)), 0);
  return {
    heat_kWh: over(hours.networks, (item) => item.unmet_kW) + over(hours.batches, (item) => item.unmet_kWh),
    cold_kWh: over(hours.cold, (item) => item.unmet_kW),
    water_m3: over(hours.water, (item) => item.unmet_m3_h),
  };
}

/**
 * Where a plan cannot keep what is asked in a year of 8760 hours, in sentences that begin with the
 * year's name; empty where it can.
 */
export function shortfallsOfYear(name: string, plan: Plan, demand_kWh: number): string[] {
  const { heat_kWh, cold_kWh, water_m3 } = lacksOf(plan);
  const lacks = [
    ...(heat_kWh > tolerance ? [`${inWords(heat_kWh)} kWh of heat`] : []),
    ...(cold_kWh > tolerance ? [`${inWords(cold_kWh)} kWh of cold`] : []),
    ...(water_m3 > tolerance ? [`${inWords(water_m3)} m³ of water`] : []),
  ];
  const { fraction_kWh } = plan.stretch;
  return [
    ...(lacks.length > 0 ? [`In "${name}" ${lacks.join(", ")} cannot be met.`] : []),
    ...(fraction_kWh > Math.max(tolerance, fractionTolerance * demand_kWh)
      ? [
          `In "${name}" the least solar fraction is missed by ${inWords((100 * fraction_kWh) / demand_kWh)} % of the heat.`,
        ]
      : []),
  ];
}

/** The same of limits on the plant, which are those of all years. */
export function shortfallsOfPlant({ stretch }: Plan, currency: string): string[] {
  return [
    ...(stretch.land_m2 > tolerance
      ? [`${inWords(stretch.land_m2)} m² more land than allowed would be needed.`]
      : []),
    ...(stretch.budget > tolerance
      ? [`${inWords(stretch.budget)} ${currency} more initial capital than allowed would be needed.`]
      : []),
  ];
}
