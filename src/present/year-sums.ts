import { sum } from "../core/series.ts";
import type { WeatherYear } from "../core/weather.ts";
import { threeDigits } from "./numbers.ts";

/** Light, air and wind of a weather year in one sentence. */
export function yearSums({ dni_W_m2, ghi_W_m2, ambient_C, wind_m_s }: WeatherYear): string {
  const year = (series: Float64Array) => `${threeDigits(sum(series) / 1000)} kWh/m²`;
  const mean = (series: Float64Array) => threeDigits(sum(series) / series.length);
  return `Its year has ${year(dni_W_m2)} of direct normal and ${year(ghi_W_m2)} of global horizontal irradiation, ${mean(ambient_C)} °C and ${mean(wind_m_s)} m/s of wind on average.`;
}
