import { hoursPerYear } from "../series.ts";
import type { Collector } from "../study/schema/collector.ts";
import type { WeatherYear } from "../weather.ts";
import { heatCapacity_kJ_m2K, lossFunction, seesSky } from "./heat-loss.ts";
import { skyExcess_W_m2 } from "./sky-radiation.ts";

/** Useful heat of a year at one mean fluid temperature, per m² of aperture. */
export interface UsefulHeat {
  readonly yield_kW_per_m2: Float64Array;
  readonly useful_kWh_per_m2: number;
  /** Hours with useful heat. */
  readonly runningHours: number;
  /** Loss while running, and absorbed heat too weak to reach the temperature. */
  readonly heatLoss_kWh_per_m2: number;
  readonly warmUp_kWh_per_m2: number;
  /** Absorbed in hours of less light than the loop is started for. */
  readonly tooWeak_kWh_per_m2: number;
}

/**
 * Absorbed heat less heat loss, not below 0, less the heat that warms the collector again after it has cooled.
 *
 * The collector with its fluid is one body of heat capacity a5 (ISO 9806: a5·dTm/dt; D&B sec. 6.12). In an
 * hour too weak to run it moves toward ambient + absorbed/U by the exact exponential with U/a5, U being the
 * loss per kelvin at working temperature, which cools a little too fast. In an hour strong enough, the surplus
 * over the loss at working temperature first makes good a5·(mean fluid − body), carried into the next hours
 * where it does not suffice; the rest is useful. The body starts the year at ambient. Without a5 there is no
 * warm-up. Hours of less light on the aperture than `leastIrradiance_W_m2` are not run, however hot the collector
 * could become in them. Field pipes are not part of it. A missing weather hour (NaN) gives a missing yield.
 */
export function usefulHeat(
  { heatLoss, leastIrradiance_W_m2 = 0 }: Pick<Collector, "heatLoss" | "leastIrradiance_W_m2">,
  light: {
    readonly absorbed_W_m2: Float64Array;
    readonly onAperture_W_m2: Float64Array;
    readonly receiverBeam_W_m2?: Float64Array | null;
  },
  weather: WeatherYear,
  meanFluid_C: number,
): UsefulHeat {
  const { absorbed_W_m2, onAperture_W_m2, receiverBeam_W_m2 } = light;
  const { ambient_C, wind_m_s } = weather;
  const lossAt = lossFunction(heatLoss);
  const sky = seesSky(heatLoss) ? skyExcess_W_m2(weather) : null;
  const capacity_Wh_m2K = heatCapacity_kJ_m2K(heatLoss) / 3.6;
  const yield_kW_per_m2 = new Float64Array(hoursPerYear);
  let body_C = ambient_C[0]!;
  let useful = 0;
  let lost = 0;
  let warming = 0;
  let tooWeak = 0;
  let runningHours = 0;
  for (let i = 0; i < hoursPerYear; i += 1) {
    const absorbed = absorbed_W_m2[i]!;
    if (absorbed === 0 && capacity_Wh_m2K === 0) continue;
    const ambient = ambient_C[i]!;
    const onAperture = onAperture_W_m2[i]!;
    const loss = lossAt(meanFluid_C, ambient, wind_m_s[i]!, onAperture, sky?.[i], receiverBeam_W_m2?.[i]);
    const weak = onAperture < leastIrradiance_W_m2;
    if (weak || absorbed <= loss) {
      if (weak) tooWeak += absorbed;
      else lost += absorbed;
      if (capacity_Wh_m2K > 0)
        body_C = drifted_C(body_C, absorbed, loss, ambient, meanFluid_C, capacity_Wh_m2K);
      continue;
    }
    const surplus = absorbed - loss;
    let spent = 0;
    if (capacity_Wh_m2K > 0) {
      const debt = Math.max(0, meanFluid_C - body_C) * capacity_Wh_m2K;
      spent = Math.min(surplus, debt);
      body_C = spent < debt ? body_C + spent / capacity_Wh_m2K : meanFluid_C;
    }
    lost += loss;
    warming += spent;
    const gain = surplus - spent;
    if (gain > 0) runningHours += 1;
    useful += gain;
    yield_kW_per_m2[i] = gain / 1000;
  }
  return {
    yield_kW_per_m2,
    useful_kWh_per_m2: useful / 1000,
    runningHours,
    heatLoss_kWh_per_m2: lost / 1000,
    warmUp_kWh_per_m2: warming / 1000,
    tooWeak_kWh_per_m2: tooWeak / 1000,
  };
}

/** Temperature of the body after an hour without circulation; it may lie above the working temperature. */
function drifted_C(
  body_C: number,
  absorbed_W_m2: number,
  loss_W_m2: number,
  ambient_C: number,
  meanFluid_C: number,
  capacity_Wh_m2K: number,
): number {
  const excess_K = meanFluid_C - ambient_C;
  // Air at or above the working temperature warms the body for nothing.
  if (excess_K <= 0) return meanFluid_C;
  if (loss_W_m2 === 0) return body_C;
  const perKelvin = loss_W_m2 / excess_K;
  const target_C = ambient_C + absorbed_W_m2 / perKelvin;
  return target_C + (body_C - target_C) * Math.exp(-perKelvin / capacity_Wh_m2K);
}
