import { sum } from "../series.ts";
import type { WeatherYear } from "../weather.ts";
import type { SunYear } from "./sun-year.ts";

/** A weather year in a few figures. */
export interface WeatherFigures {
  readonly ghi_kWh_m2: number;
  readonly dni_kWh_m2: number;
  readonly dhi_kWh_m2: number;
  readonly meanAmbient_C: number;
  readonly meanWind_m_s: number;
  readonly highestWind_m_s: number;
  /** Hours whose mean wind lies above the limit. */
  readonly hoursAboveWind: number;
  readonly closure: Closure;
  /** Light in hours in which the sun is down: GHI above 5 W/m². */
  readonly nightLight_h: number;
}

/** GHI less (DHI + DNI·cos θz) over the hours with sun, W/m². */
export interface Closure {
  readonly hours: number;
  /** Positive where GHI is the larger. */
  readonly mean_W_m2: number;
  readonly meanAbsolute_W_m2: number;
  readonly rootMeanSquare_W_m2: number;
}

/** Annual sums, means and the closure of a weather year. NaN in a series makes its figures NaN. */
export function weatherFigures(weather: WeatherYear, sun: SunYear, windLimit_m_s: number): WeatherFigures {
  let hoursAboveWind = 0;
  let nightLight_h = 0;
  let highestWind_m_s = 0;
  for (let t = 0; t < weather.wind_m_s.length; t += 1) {
    if (weather.wind_m_s[t]! > windLimit_m_s) hoursAboveWind += 1;
    highestWind_m_s = Math.max(highestWind_m_s, weather.wind_m_s[t]!);
    if (sun.sunlitShare[t] === 0 && weather.ghi_W_m2[t]! > 5) nightLight_h += 1;
  }
  return {
    ghi_kWh_m2: sum(weather.ghi_W_m2) / 1000,
    dni_kWh_m2: sum(weather.dni_W_m2) / 1000,
    dhi_kWh_m2: sum(weather.dhi_W_m2) / 1000,
    meanAmbient_C: sum(weather.ambient_C) / weather.ambient_C.length,
    meanWind_m_s: sum(weather.wind_m_s) / weather.wind_m_s.length,
    highestWind_m_s,
    hoursAboveWind,
    closure: closureOf(weather, sun),
    nightLight_h,
  };
}

/** How well global, beam and diffuse light agree; a wrong clock or place shows here first. */
export function closureOf(weather: WeatherYear, sun: SunYear): Closure {
  let hours = 0;
  let total = 0;
  let absolute = 0;
  let square = 0;
  for (let t = 0; t < sun.up.length; t += 1) {
    if (sun.sunlitShare[t] === 0) continue;
    const gap = weather.ghi_W_m2[t]! - weather.dhi_W_m2[t]! - weather.dni_W_m2[t]! * sun.up[t]!;
    hours += 1;
    total += gap;
    absolute += Math.abs(gap);
    square += gap * gap;
  }
  return {
    hours,
    mean_W_m2: total / hours,
    meanAbsolute_W_m2: absolute / hours,
    rootMeanSquare_W_m2: Math.sqrt(square / hours),
  };
}
