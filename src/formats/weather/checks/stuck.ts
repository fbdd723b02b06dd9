import type { Problem } from "../../../core/problem.ts";
import { extraterrestrialHorizontal_W_m2 } from "../../../core/sun/extraterrestrial.ts";
import type { WeatherToCheck } from "../check-weather.ts";
import { rowsInWords, weatherProblem } from "../weather-problems.ts";

/** Air is never so even for so long; common practice, no source. */
const stuckWind_h = 72;
/** A day above whose air less light falls is dark by nature, near the poles. */
const leastSky_Wh_m2 = 500;

/** Missing data that were filled with zeros or with the last value: wind that does not move, days without light. */
export function checkStuck({ weather, sun, site, file, line }: WeatherToCheck): Problem[] {
  const found: Problem[] = [];
  const { from, length } = longestRun(weather.wind_m_s);
  if (length >= stuckWind_h)
    found.push(
      weatherProblem(
        file,
        "WEATHER_STUCK",
        `The wind is ${weather.wind_m_s[from]} m/s for ${length} hours without a break; an anemometer that stands still hides storms in which mirrors must be stowed.`,
        { row: line[from]! },
      ),
    );
  const above = extraterrestrialHorizontal_W_m2(sun, site.latitude_deg);
  const dark: number[] = [];
  for (let day = 0; day < 365; day += 1) {
    const sky = above.subarray(day * 24, day * 24 + 24).reduce((all, each) => all + each, 0);
    const light = weather.ghi_W_m2.subarray(day * 24, day * 24 + 24).reduce((all, each) => all + each, 0);
    if (sky > leastSky_Wh_m2 && light === 0) dark.push(day * 24);
  }
  if (dark.length > 0)
    found.push(
      weatherProblem(
        file,
        "WEATHER_DARK_DAY",
        `Days without any light begin ${rowsInWords(dark.map((hour) => line[hour]!))}, though the sun rises; missing data look like that.`,
        { row: line[dark[0]!]! },
      ),
    );
  return found;
}

function longestRun(values: Float64Array): { readonly from: number; readonly length: number } {
  let best = { from: 0, length: 0 };
  let from = 0;
  for (let t = 1; t <= values.length; t += 1) {
    if (t < values.length && values[t] === values[from]) continue;
    if (t - from > best.length) best = { from, length: t - from };
    from = t;
  }
  return best;
}
