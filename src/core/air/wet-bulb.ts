import { ModelError } from "../errors.ts";
import { humidityRatio, relativeHumidity } from "./psychrometrics.ts";

/**
 * Thermodynamic wet-bulb temperature, °C, ASHRAE Fundamentals 2017 chapter 1, eq. 33 over water and 35
 * over ice; found by bisection to 1e-6 K.
 *
 * @throws ModelError OUT_OF_RANGE where the air is supersaturated
 */
export function wetBulb_C(temperature_C: number, ratio: number, pressure_Pa: number): number {
  if (!(relativeHumidity(temperature_C, ratio, pressure_Pa) <= 1 + 1e-9))
    throw new ModelError("OUT_OF_RANGE", `supersaturated air of ${temperature_C} °C and ${ratio} kg/kg`);
  let low = -99;
  let high = temperature_C;
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (ratioOfWetBulb(temperature_C, middle, pressure_Pa) > ratio) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/** Humidity ratio of air with a wet-bulb temperature; negative where no such air exists. */
function ratioOfWetBulb(temperature_C: number, wet_C: number, pressure_Pa: number): number {
  // Near boiling the saturated ratio grows without bound; such a wet bulb is too warm for any air.
  if (!canSaturate(wet_C, pressure_Pa)) return Number.POSITIVE_INFINITY;
  const saturated = humidityRatio(wet_C, 1, pressure_Pa);
  if (wet_C >= 0)
    return (
      ((2501 - 2.326 * wet_C) * saturated - 1.006 * (temperature_C - wet_C)) /
      (2501 + 1.86 * temperature_C - 4.186 * wet_C)
    );
  return (
    ((2830 - 0.24 * wet_C) * saturated - 1.006 * (temperature_C - wet_C)) /
    (2830 + 1.86 * temperature_C - 2.1 * wet_C)
  );
}

function canSaturate(temperature_C: number, pressure_Pa: number): boolean {
  return relativeHumidity(temperature_C, 1e6, pressure_Pa) > 1;
}
