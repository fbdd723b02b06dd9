import { hoursPerYear } from "../series.ts";
import type { WeatherYear } from "../weather.ts";
import { extraterrestrialHorizontal_W_m2 } from "./extraterrestrial.ts";
import { monthStarts } from "./monthly-means.ts";
import type { SunYear } from "./sun-year.ts";

/** A month, or the year, of weather in figures. */
export interface WeatherSpan {
  readonly dni_kWh_m2: number;
  readonly ghi_kWh_m2: number;
  readonly dhi_kWh_m2: number;
  /** Global radiation over that above the air; NaN where the sun never rises. */
  readonly clearness: number;
  readonly leastAmbient_C: number;
  readonly meanAmbient_C: number;
  readonly mostAmbient_C: number;
  readonly meanWind_m_s: number;
  readonly mostWind_m_s: number;
}

/** The twelve months of a weather year and the year itself. */
export function weatherSpans(
  weather: WeatherYear,
  sun: SunYear,
  latitude_deg: number,
): { readonly months: readonly WeatherSpan[]; readonly year: WeatherSpan } {
  const above = extraterrestrialHorizontal_W_m2(sun, latitude_deg);
  const span = (from: number, to: number): WeatherSpan => {
    const total = (series: Float64Array) => {
      let sum = 0;
      for (let t = from; t < to; t += 1) sum += series[t]!;
      return sum;
    };
    const ambient = weather.ambient_C.subarray(from, to);
    const ghi = total(weather.ghi_W_m2);
    return {
      dni_kWh_m2: total(weather.dni_W_m2) / 1000,
      ghi_kWh_m2: ghi / 1000,
      dhi_kWh_m2: total(weather.dhi_W_m2) / 1000,
      clearness: ghi / total(above),
      leastAmbient_C: ambient.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
      meanAmbient_C: total(weather.ambient_C) / (to - from),
      mostAmbient_C: ambient.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
      meanWind_m_s: total(weather.wind_m_s) / (to - from),
      mostWind_m_s: weather.wind_m_s.subarray(from, to).reduce((a, b) => Math.max(a, b), 0),
    };
  };
  return {
    months: Array.from({ length: 12 }, (_, month) => span(monthStarts[month]!, monthStarts[month + 1]!)),
    year: span(0, hoursPerYear),
  };
}
