import { ModelError } from "../errors.ts";
import {
  humidityRatioOfVapour,
  moistAirEnthalpy_kJ_kg,
  vapourPressureAtSaturation_Pa,
} from "./psychrometrics.ts";

/** Air as it leaves a dryer. */
export interface Exhaust {
  readonly temperature_C: number;
  readonly humidityRatio: number;
}

/**
 * Air that took up water without heat from outside until it reached a relative humidity.
 *
 * `inlet` is the drying air's temperature with the humidity of the fresh air; `recirculatedShare` r of the
 * air into the dryer is its own exhaust, so that W_in = (1 − r)·W_fresh + r·W_exhaust at that temperature.
 * Its enthalpy stays that of the air into the dryer: the enthalpy that the water brings (liquid near 0 °C as
 * reference) and the warming of the product are left out, as is usual for the floor of a dryer's heat
 * use. Found by bisection to 1e-12 K; the exhaust cannot be colder than −40 °C.
 *
 * @throws ModelError OUT_OF_RANGE where the fresh air is already wetter than the exhaust may be
 */
export function dryerExhaust(
  inlet: Exhaust,
  exhaustRelativeHumidity: number,
  pressure_Pa: number,
  recirculatedShare = 0,
): Exhaust {
  if (!(exhaustRelativeHumidity > 0 && exhaustRelativeHumidity <= 1))
    throw new ModelError("OUT_OF_RANGE", `exhaust relative humidity of ${exhaustRelativeHumidity}`);
  if (!(recirculatedShare >= 0 && recirculatedShare < 1))
    throw new ModelError("OUT_OF_RANGE", `${recirculatedShare} of the air brought back`);
  const ratioAt = (temperature_C: number) => {
    const vapour_Pa = exhaustRelativeHumidity * vapourPressureAtSaturation_Pa(temperature_C);
    return vapour_Pa < pressure_Pa ? humidityRatioOfVapour(vapour_Pa, pressure_Pa) : Number.POSITIVE_INFINITY;
  };
  /** Enthalpy of exhaust at a temperature over that of the air into the dryer with it. */
  const over = (temperature_C: number) => {
    const ratio = ratioAt(temperature_C);
    if (ratio === Number.POSITIVE_INFINITY) return ratio;
    const inletRatio = (1 - recirculatedShare) * inlet.humidityRatio + recirculatedShare * ratio;
    return (
      moistAirEnthalpy_kJ_kg(temperature_C, ratio) - moistAirEnthalpy_kJ_kg(inlet.temperature_C, inletRatio)
    );
  };
  // Saturation is known up to 200 °C; hotter drying air leaves far below that.
  const hottest_C = Math.min(inlet.temperature_C, 200);
  if (!(over(hottest_C) > 0) || !(ratioAt(hottest_C) > inlet.humidityRatio))
    throw new ModelError(
      "OUT_OF_RANGE",
      `drying air of ${inlet.temperature_C} °C and ${inlet.humidityRatio} kg/kg that is wetter than its exhaust`,
    );
  let low = -40;
  let high = hottest_C;
  while (high - low > 1e-12) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (over(middle) > 0) high = middle;
    else low = middle;
  }
  const temperature_C = (low + high) / 2;
  return { temperature_C, humidityRatio: ratioAt(temperature_C) };
}
