import { sum } from "../../../core/series.ts";
import type { WeatherCheck, WeatherToCheck } from "../check-weather.ts";
import { rowsInWords, weatherProblem } from "../weather-problems.ts";

/** Twilight and a thermal offset of the meter; common practice, no source. */
const tolerated_W_m2 = 5;
/** In the hour next to sunrise or sunset. */
const toleratedAtEdge_W_m2 = 20;
/** Share of the year's light in the dark from which the clock or the place must be wrong. */
const mostShare = 0.01;

/** Radiation in hours in which the sun is down all hour. */
export function checkNightLight({ weather, sun, file, line }: WeatherToCheck): WeatherCheck {
  const n = weather.ghi_W_m2.length;
  const lit: number[] = [];
  let dark_Wh_m2 = 0;
  for (let hour = 0; hour < n; hour += 1) {
    if (sun.sunlitShare[hour] !== 0) continue;
    const light = Math.max(weather.ghi_W_m2[hour]!, weather.dni_W_m2[hour]!);
    dark_Wh_m2 += weather.ghi_W_m2[hour]!;
    const edge = sun.sunlitShare[(hour + 1) % n] !== 0 || sun.sunlitShare[(hour + n - 1) % n] !== 0;
    if (light > (edge ? toleratedAtEdge_W_m2 : tolerated_W_m2)) lit.push(hour);
  }
  if (lit.length === 0) return { problems: [], findings: [] };
  const share = dark_Wh_m2 / sum(weather.ghi_W_m2);
  const message =
    `Radiation is there while the sun is down ${rowsInWords(lit.map((hour) => line[hour]!))}, ` +
    `${(share * 100).toPrecision(2)} % of the year's global radiation`;
  const place = { row: line[lit[0]!]! };
  if (share > mostShare)
    return {
      problems: [
        weatherProblem(
          file,
          "WEATHER_NIGHT_LIGHT",
          `${message}; up to ${mostShare * 100} % is allowed, so the site's place, its UTC offset or the file's clock is wrong.`,
          place,
        ),
      ],
      findings: [],
    };
  return { problems: [], findings: [weatherProblem(file, "WEATHER_NIGHT_LIGHT", `${message}.`, place)] };
}
