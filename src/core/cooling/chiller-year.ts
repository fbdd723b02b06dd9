import { constantYear } from "../series.ts";
import type { Chiller } from "../study/schema/chiller.ts";
import type { ByTemperature } from "../study/schema/chiller-temperatures.ts";
import type { WeatherYear } from "../weather.ts";
import {
  type Characteristic,
  type MeanTemperatures,
  scaledByCharacteristic,
  testedSingleEffect,
} from "./characteristic.ts";
import { enteringWater_C } from "./cooling-water.ts";
import { reversibleCop } from "./reversible-cop.ts";

/** What a chiller can do in each hour of the year. */
export interface ChillerYear {
  /** Cold per heat; the rated COP in hours in which it cannot run. */
  readonly cop: Float64Array;
  /** Cold per kW of its size; 0 where it cannot run. */
  readonly capacityFactor: Float64Array;
  /** Entering cooling water, °C; null for a chiller whose COP is constant. */
  readonly coolingIn_C: Float64Array | null;
  /** Hours in which the relation gave more than a reversible machine could, and was held to that. */
  readonly heldHours: number;
  /** Hours outside the given points, whose nearest one counts. */
  readonly outsideHours: number;
}

/**
 * COP and capacity of an absorption chiller by the hour, from its cooling water: docs/methods/cooling.md.
 * Driving and cold temperatures are constant. The COP is that of full load in the hour; part load has the
 * same.
 */
export function chillerYear(chiller: Chiller, coldSupply_C: number, weather: WeatherYear): ChillerYear {
  const { byTemperature, cop: ratedCop } = chiller;
  if (byTemperature === undefined)
    return {
      cop: constantYear(ratedCop),
      capacityFactor: constantYear(1),
      coolingIn_C: null,
      heldHours: 0,
      outsideHours: 0,
    };
  const coolingIn_C = enteringWater_C(byTemperature.coolingWater, weather);
  const cop = new Float64Array(coolingIn_C.length);
  const capacityFactor = new Float64Array(coolingIn_C.length);
  let heldHours = 0;
  let outsideHours = 0;
  for (let t = 0; t < coolingIn_C.length; t += 1) {
    const at = serviceMeans(byTemperature, coldSupply_C, coolingIn_C[t]);
    const made = performanceAt(byTemperature, ratedCop, coolingIn_C[t], at);
    const limit = reversibleCop(at.driving_C, at.coolingWater_C, at.cold_C);
    if (made.outside) outsideHours += 1;
    if (made.factor > 0 && made.cop > limit) heldHours += 1;
    const runs = made.factor > 0 && limit > 0;
    capacityFactor[t] = runs ? made.factor : 0;
    cop[t] = runs ? Math.min(made.cop, limit) : ratedCop;
  }
  return { cop, capacityFactor, coolingIn_C, heldHours, outsideHours };
}

/** Means of inlet and outlet in service, with the water entering at the given temperature. */
export function serviceMeans(
  { drivingMean_C, coldRise_K, coolingWater }: ByTemperature,
  coldSupply_C: number,
  coolingIn_C: number,
): MeanTemperatures {
  return {
    driving_C: drivingMean_C,
    coolingWater_C: coolingIn_C + coolingWater.rise_K / 2,
    cold_C: coldSupply_C + coldRise_K / 2,
  };
}

/** The means at which the rated COP and size hold. */
export function ratedMeans(given: Extract<ByTemperature, { by: "characteristic" }>): MeanTemperatures {
  return {
    driving_C: given.ratedDriving_C,
    coolingWater_C: given.ratedCoolingWater_C,
    cold_C: given.ratedCold_C,
  };
}

/** The coefficients that count: those given, or those of the tested single-effect machine. */
export function coefficientsOf(given: Extract<ByTemperature, { by: "characteristic" }>): Characteristic {
  return given.coefficients ?? testedSingleEffect;
}

function performanceAt(
  given: ByTemperature,
  ratedCop: number,
  coolingIn_C: number,
  at: MeanTemperatures,
): { readonly factor: number; readonly cop: number; readonly outside: boolean } {
  if (given.by === "characteristic") {
    const rated = { cop: ratedCop, at: ratedMeans(given) };
    return { ...scaledByCharacteristic(coefficientsOf(given), rated, at, given.mostFactor), outside: false };
  }
  const { points } = given;
  const first = points[0];
  const last = points[points.length - 1];
  if (coolingIn_C <= first.coolingIn_C)
    return { factor: first.capacityFactor, cop: first.cop, outside: coolingIn_C < first.coolingIn_C };
  if (coolingIn_C >= last.coolingIn_C)
    return { factor: last.capacityFactor, cop: last.cop, outside: coolingIn_C > last.coolingIn_C };
  const next = points.findIndex((point) => point.coolingIn_C > coolingIn_C);
  const [low, high] = [points[next - 1], points[next]];
  const share = (coolingIn_C - low.coolingIn_C) / (high.coolingIn_C - low.coolingIn_C);
  return {
    factor: low.capacityFactor + share * (high.capacityFactor - low.capacityFactor),
    cop: low.cop + share * (high.cop - low.cop),
    outside: false,
  };
}
