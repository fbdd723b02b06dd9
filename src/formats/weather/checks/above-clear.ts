import { clearestTurbidity, clearSkyLight } from "../../../core/sun/clear-sky.ts";
import type { WeatherCheck, WeatherToCheck } from "../check-weather.ts";
import { rowsInWords, weatherProblem } from "../weather-problems.ts";

/**
 * Real air may be a little clearer for an hour: the typical years that the tests read pass the bound in up to
 * 0.8 % of their hours and by 6 % at most. Under a low sun small errors of clock and height count for much.
 */
const beyond = 1.05;
const mostShare = 0.01;
/** Sine of 20°. */
const leastHeight = 0.342;

/** Beam above that of very clear air in many hours: another unit, gain or column. Sites above 3000 m may have it. */
export function checkAboveClear({ weather, sun, file, line }: WeatherToCheck): WeatherCheck {
  const clear = clearSkyLight(sun, weather.pressure_Pa, clearestTurbidity).dni_W_m2;
  const above: number[] = [];
  let hours = 0;
  for (let t = 0; t < clear.length; t += 1) {
    if (!(sun.up[t]! > leastHeight && sun.sunlitShare[t] === 1 && weather.dni_W_m2[t]! > 0)) continue;
    hours += 1;
    if (weather.dni_W_m2[t]! > beyond * clear[t]!) above.push(t);
  }
  if (!(above.length > mostShare * hours)) return { problems: [], findings: [] };
  return {
    problems: [],
    findings: [
      weatherProblem(
        file,
        "WEATHER_ABOVE_CLEAR",
        `Direct normal radiation lies more than 5 % above that of a cloudless sky of very clear air (Linke turbidity ${clearestTurbidity}) ${rowsInWords(above.map((t) => line[t]!))}; check its unit and column, or the instrument. It is used as it stands.`,
        { row: line[above[0]!]!, column: "dni" },
      ),
    ],
  };
}
