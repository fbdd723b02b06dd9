import type { Problem } from "../problem.ts";
import type { Chiller } from "../study/schema/chiller.ts";
import type { WeatherYear } from "../weather.ts";
import { characteristicDifference_K, characteristicPowers } from "./characteristic.ts";
import { chillerYear, coefficientsOf, ratedMeans } from "./chiller-year.ts";
import { leastEntering_C } from "./cooling-water.ts";

export const chillerRunRemarkCodes = {
  CHILLER_STOPS: "a chiller cannot run in some hours of the year's weather",
  CHILLER_HELD: "a COP was held to the reversible limit in some hours",
  CHILLER_OUTSIDE: "cooling water leaves the given points in some hours, and the nearest point counts",
  CHILLER_CRYSTALS: "hot driving heat with cool cooling water can crystallise lithium bromide",
  CHILLER_COP_DIFFERS: "the coefficients give another COP at the rated point than the chiller's own",
} as const;

/** Cooling water below it is held off by most makers; common practice, no source. */
const coolWater_C = 18;
/** Mean driving temperatures above these concentrate the solution strongly; common practice, no source. */
const hot_C = { single: 105, double: 180 } as const;
/** Of the rated COP. */
const differs = 0.1;

/** What the year's weather makes of a chiller whose COP goes by temperature; nothing for a constant one. */
export function chillerRunRemarks(
  chiller: Chiller,
  coldSupply_C: number,
  weather: WeatherYear,
  path: string,
): Problem[] {
  const { byTemperature, effect } = chiller;
  if (byTemperature === undefined) return [];
  const year = chillerYear(chiller, coldSupply_C, weather);
  const remarks: Problem[] = [];
  const add = (code: keyof typeof chillerRunRemarkCodes, field: string, message: string) =>
    remarks.push({ code, message, place: { path: `${path}/byTemperature/${field}` } });
  const stopped = year.capacityFactor.filter((factor) => factor === 0).length;
  if (stopped > 0)
    add(
      "CHILLER_STOPS",
      "coolingWater",
      `The chiller cannot run in ${stopped} hours of the year, when its cooling water is too warm for the driving heat.`,
    );
  if (year.heldHours > 0)
    add(
      "CHILLER_HELD",
      "by",
      `The COP came out above the reversible limit in ${year.heldHours} hours and was held to it; check the temperatures.`,
    );
  if (year.outsideHours > 0)
    add(
      "CHILLER_OUTSIDE",
      "points",
      `Cooling water lies outside the given points in ${year.outsideHours} hours; the nearest point counts there.`,
    );
  const least_C = leastEntering_C(byTemperature.coolingWater);
  const isBromide = effect === "single" || effect === "double";
  if (isBromide && (least_C < coolWater_C || byTemperature.drivingMean_C > hot_C[effect]))
    add(
      "CHILLER_CRYSTALS",
      "coolingWater",
      `Driving heat of ${byTemperature.drivingMean_C} °C and cooling water down to ${least_C} °C can crystallise lithium bromide; ask the maker, and hold the water at ${coolWater_C} °C or more.`,
    );
  if (byTemperature.by === "characteristic" && byTemperature.coefficients !== undefined) {
    const own = coefficientsOf(byTemperature);
    const { cold_kW, heat_kW } = characteristicPowers(
      own,
      characteristicDifference_K(own, ratedMeans(byTemperature)),
    );
    if (Math.abs(cold_kW / heat_kW - chiller.cop) > differs * chiller.cop)
      add(
        "CHILLER_COP_DIFFERS",
        "coefficients",
        `The coefficients give a COP of ${(cold_kW / heat_kW).toFixed(2)} at the rated point and the chiller's COP is ${chiller.cop}; the latter counts there.`,
      );
  }
  return remarks;
}
