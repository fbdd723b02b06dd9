import { ModelError } from "../errors.ts";
import { dryerExhaust, type Exhaust } from "./dryer-exhaust.ts";
import {
  humidityRatio,
  moistAirEnthalpy_kJ_kg,
  moistAirVolume_m3_kg,
  relativeHumidity,
} from "./psychrometrics.ts";

/** How a convective dryer treats its air. */
export interface DryerAir {
  readonly air_C: number;
  readonly exhaustRelativeHumidity: number;
  /** Share of the air through the dryer that is exhaust brought back, 0 to below 1. */
  readonly recirculatedShare: number;
  /** Share of the way from outside air to exhaust that the fresh air is warmed by the exhaust let out. */
  readonly recoveryEffectiveness: number;
}

/** A dryer's air for one kg of water removed; air is counted dry. */
export interface DryerBalance {
  readonly fresh_kg: number;
  readonly throughDryer_kg: number;
  /** Air into the product. */
  readonly inlet: Exhaust;
  readonly exhaust: Exhaust;
  /** Heat into the air, after what the exhaust gave it; no less than 0. */
  readonly heat_kJ: number;
  readonly recovered_kJ: number;
  /** Air through the dryer at its hottest, where the fan is taken to stand. */
  readonly volume_m3: number;
}

/**
 * A convective dryer in balance for one kg of water. Fresh air, warmed by the exhaust, is mixed with exhaust
 * brought back, heated to `air_C` at constant humidity, takes up water at constant enthalpy until it has the
 * exhaust's relative humidity, and as much leaves as fresh air came:
 *
 *   W_in = (1 − r)·W_outside + r·W_exhaust,   fresh = 1/(W_exhaust − W_outside)
 *   heat = fresh · (h(air_C, W_in) − h_outside) − recovered
 *
 * The exchanger gives the fresh air ε of the way to the exhaust's temperature, and no more than cools the
 * exhaust to its dew point: no credit for condensing. Outside air hotter than `air_C` needs no heat.
 *
 * Null where the air cannot take up water. @throws ModelError OUT_OF_RANGE for a share or effectiveness
 * outside 0 to 1
 */
export function dryerBalance(
  { air_C, exhaustRelativeHumidity, recirculatedShare: r, recoveryEffectiveness }: DryerAir,
  outside: { readonly temperature_C: number; readonly relativeHumidity: number },
  pressure_Pa: number,
): DryerBalance | null {
  if (!(r >= 0 && r < 1 && recoveryEffectiveness >= 0 && recoveryEffectiveness <= 1))
    throw new ModelError("OUT_OF_RANGE", `recirculated ${r}, recovered ${recoveryEffectiveness}`);
  const outsideRatio = humidityRatio(
    outside.temperature_C,
    Math.min(1, outside.relativeHumidity),
    pressure_Pa,
  );
  const temperature_C = Math.max(air_C, outside.temperature_C);
  const exhaust = exhaustOrNull(
    { temperature_C, humidityRatio: outsideRatio },
    exhaustRelativeHumidity,
    pressure_Pa,
    r,
  );
  if (exhaust === null || !(exhaust.humidityRatio - outsideRatio > 1e-9)) return null;

  const inletRatio = (1 - r) * outsideRatio + r * exhaust.humidityRatio;
  const fresh_kg = 1 / (exhaust.humidityRatio - outsideRatio);
  const throughDryer_kg = fresh_kg / (1 - r);
  const outsideEnthalpy = moistAirEnthalpy_kJ_kg(outside.temperature_C, outsideRatio);
  const lift_kJ = fresh_kg * (moistAirEnthalpy_kJ_kg(temperature_C, inletRatio) - outsideEnthalpy);
  const recovered_kJ =
    fresh_kg * recovery(recoveryEffectiveness, exhaust, outside.temperature_C, outsideRatio, pressure_Pa);
  return {
    fresh_kg,
    throughDryer_kg,
    inlet: { temperature_C, humidityRatio: inletRatio },
    exhaust,
    heat_kJ: Math.max(0, lift_kJ - recovered_kJ),
    recovered_kJ: Math.min(lift_kJ, recovered_kJ),
    volume_m3: throughDryer_kg * moistAirVolume_m3_kg(temperature_C, inletRatio, pressure_Pa),
  };
}

function exhaustOrNull(...asked: Parameters<typeof dryerExhaust>): Exhaust | null {
  try {
    return dryerExhaust(...asked);
  } catch (error) {
    if (error instanceof ModelError) return null;
    throw error;
  }
}

/** kJ per kg of fresh dry air. */
function recovery(
  effectiveness: number,
  exhaust: Exhaust,
  outside_C: number,
  outsideRatio: number,
  pressure_Pa: number,
): number {
  if (effectiveness === 0 || exhaust.temperature_C <= outside_C) return 0;
  const warmed_C = outside_C + effectiveness * (exhaust.temperature_C - outside_C);
  const taken =
    moistAirEnthalpy_kJ_kg(warmed_C, outsideRatio) - moistAirEnthalpy_kJ_kg(outside_C, outsideRatio);
  const dewPoint_C = dewPointOf(exhaust, pressure_Pa);
  const dry =
    moistAirEnthalpy_kJ_kg(exhaust.temperature_C, exhaust.humidityRatio) -
    moistAirEnthalpy_kJ_kg(dewPoint_C, exhaust.humidityRatio);
  return Math.min(taken, dry);
}

/** Temperature at which the air's own water saturates it, by bisection to 1e-9 K. */
function dewPointOf({ temperature_C, humidityRatio: ratio }: Exhaust, pressure_Pa: number): number {
  let [low, high] = [-60, temperature_C];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (relativeHumidity(middle, ratio, pressure_Pa) > 1) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
