import { humidityRatio } from "../air/psychrometrics.ts";
import type { WeatherCold } from "../study/schema/loads/weather-cold.ts";
import type { WeatherYear } from "../weather.ts";

type Air = Pick<WeatherYear, "ambient_C" | "humidity_share" | "pressure_Pa">;

/**
 * Cold that the weather asks for, kW by hour: so much per kelvin that the outdoor air is above a balance
 * temperature (cooling degree hours), and, where given, per g/kg that its humidity ratio is above a limit,
 * to take out moisture. Capped where a most is given. No mass of the building smooths it.
 */
export function weatherCold_kW(
  { balance_C, cold_kW_per_K, humidity, most_kW = Number.POSITIVE_INFINITY }: WeatherCold,
  air: Air,
): Float64Array {
  return air.ambient_C.map((ambient_C, t) => {
    let cold_kW = cold_kW_per_K * Math.max(0, ambient_C - balance_C);
    if (humidity !== undefined) {
      const share = Math.min(1, air.humidity_share[t]);
      const ratio_g_kg = 1000 * humidityRatio(ambient_C, share, air.pressure_Pa[t]);
      cold_kW += humidity.cold_kW_per_g_kg * Math.max(0, ratio_g_kg - humidity.limit_g_kg);
    }
    return Math.min(most_kW, cold_kW);
  });
}
