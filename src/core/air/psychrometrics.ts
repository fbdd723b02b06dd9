/**
 * Moist air by the ideal-gas equations of the ASHRAE Handbook of Fundamentals 2017, chapter 1.
 * Humidity ratio is kg of water per kg of dry air; enthalpy is per kg of dry air, 0 at dry air of 0 °C.
 * The enhancement factor of real moist air (0.4 to 1.2 % in the handbook's tables) is left out.
 */
import { ModelError } from "../errors.ts";
import { kelvinAtZero_C } from "../units.ts";

/** Ratio of the molar masses of water and dry air, eq. 20. */
const molarRatio = 0.621945;

/**
 * Vapour pressure over ice (below 0.01 °C) or water, Pa; Hyland and Wexler 1983, eq. 5 and 6.
 * Valid from −100 to 200 °C. @throws ModelError OUT_OF_RANGE
 */
export function vapourPressureAtSaturation_Pa(temperature_C: number): number {
  if (!(temperature_C >= -100 && temperature_C <= 200))
    throw new ModelError("OUT_OF_RANGE", `moist air at ${temperature_C} °C; −100 to 200 °C is covered`);
  const T = temperature_C + kelvinAtZero_C;
  if (temperature_C <= 0.01)
    return Math.exp(
      -5.6745359e3 / T +
        6.3925247 -
        9.677843e-3 * T +
        6.2215701e-7 * T ** 2 +
        2.0747825e-9 * T ** 3 -
        9.484024e-13 * T ** 4 +
        4.1635019 * Math.log(T),
    );
  return Math.exp(
    -5.8002206e3 / T +
      1.3914993 -
      4.8640239e-2 * T +
      4.1764768e-5 * T ** 2 -
      1.4452093e-8 * T ** 3 +
      6.5459673 * Math.log(T),
  );
}

/** Humidity ratio at a vapour pressure, eq. 20. @throws ModelError OUT_OF_RANGE where vapour would displace all air */
export function humidityRatioOfVapour(vapourPressure_Pa: number, pressure_Pa: number): number {
  if (!(vapourPressure_Pa >= 0 && vapourPressure_Pa < pressure_Pa))
    throw new ModelError("OUT_OF_RANGE", `vapour of ${vapourPressure_Pa} Pa in air of ${pressure_Pa} Pa`);
  return (molarRatio * vapourPressure_Pa) / (pressure_Pa - vapourPressure_Pa);
}

/** Humidity ratio at a relative humidity of 0 to 1. @throws ModelError OUT_OF_RANGE */
export function humidityRatio(temperature_C: number, relativeHumidity: number, pressure_Pa: number): number {
  if (!(relativeHumidity >= 0 && relativeHumidity <= 1))
    throw new ModelError("OUT_OF_RANGE", `relative humidity of ${relativeHumidity}; 0 to 1 is allowed`);
  return humidityRatioOfVapour(relativeHumidity * vapourPressureAtSaturation_Pa(temperature_C), pressure_Pa);
}

/** Relative humidity; above 1 the air would be supersaturated. @throws ModelError OUT_OF_RANGE */
export function relativeHumidity(temperature_C: number, humidityRatio: number, pressure_Pa: number): number {
  if (!(humidityRatio >= 0)) throw new ModelError("OUT_OF_RANGE", `humidity ratio of ${humidityRatio}`);
  const vapour_Pa = (pressure_Pa * humidityRatio) / (molarRatio + humidityRatio);
  return vapour_Pa / vapourPressureAtSaturation_Pa(temperature_C);
}

/** Enthalpy of moist air, kJ per kg of dry air, eq. 30. */
export function moistAirEnthalpy_kJ_kg(temperature_C: number, humidityRatio: number): number {
  return 1.006 * temperature_C + humidityRatio * (2501 + 1.86 * temperature_C);
}

/** Volume of moist air, m³ per kg of dry air, eq. 26. */
export function moistAirVolume_m3_kg(
  temperature_C: number,
  humidityRatio: number,
  pressure_Pa: number,
): number {
  return (287.042 * (temperature_C + kelvinAtZero_C) * (1 + humidityRatio / molarRatio)) / pressure_Pa;
}

/** Pressure of the standard atmosphere at an elevation, Pa, eq. 3, −5000 to 11 000 m. @throws ModelError OUT_OF_RANGE */
export function standardPressure_Pa(elevation_m: number): number {
  if (!(elevation_m >= -5000 && elevation_m <= 11000))
    throw new ModelError("OUT_OF_RANGE", `elevation of ${elevation_m} m; −5000 to 11 000 m is covered`);
  return 101325 * (1 - 2.25577e-5 * elevation_m) ** 5.2559;
}
