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
 * Its enthalpy stays that of the inlet air: the enthalpy that the water brings (liquid near 0 °C as
 * reference) and the warming of the product are left out, as is usual for the floor of a dryer's heat
 * use. Found by bisection to 1e-9 K; the exhaust cannot be colder than −40 °C.
 *
 * @throws ModelError OUT_OF_RANGE where the inlet is already wetter than the exhaust may be
 */
export function dryerExhaust(inlet: Exhaust, exhaustRelativeHumidity: number, pressure_Pa: number): Exhaust {
  if (!(exhaustRelativeHumidity > 0 && exhaustRelativeHumidity <= 1))
    throw new ModelError("OUT_OF_RANGE", `exhaust relative humidity of ${exhaustRelativeHumidity}`);
  const enthalpy = moistAirEnthalpy_kJ_kg(inlet.temperature_C, inlet.humidityRatio);
  const ratioAt = (temperature_C: number) => {
    const vapour_Pa = exhaustRelativeHumidity * vapourPressureAtSaturation_Pa(temperature_C);
    return vapour_Pa < pressure_Pa ? humidityRatioOfVapour(vapour_Pa, pressure_Pa) : Number.POSITIVE_INFINITY;
  };
  // Saturation is known up to 200 °C; hotter drying air leaves far below that.
  const hottest_C = Math.min(inlet.temperature_C, 200);
  if (!(moistAirEnthalpy_kJ_kg(hottest_C, ratioAt(hottest_C)) > enthalpy))
    throw new ModelError(
      "OUT_OF_RANGE",
      `drying air of ${inlet.temperature_C} °C and ${inlet.humidityRatio} kg/kg that is wetter than its exhaust`,
    );
  // Both terms rise with temperature, so enthalpy at a fixed relative humidity crosses once.
  let low = -40;
  let high = hottest_C;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (moistAirEnthalpy_kJ_kg(middle, ratioAt(middle)) > enthalpy) high = middle;
    else low = middle;
  }
  const temperature_C = (low + high) / 2;
  return { temperature_C, humidityRatio: ratioAt(temperature_C) };
}
