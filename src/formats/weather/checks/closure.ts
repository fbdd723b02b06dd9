import { closureOf } from "../../../core/sun/weather-figures.ts";
import type { WeatherCheck, WeatherToCheck } from "../check-weather.ts";
import { rowsInWords, weatherProblem } from "../weather-problems.ts";

/** Limits of the yearly mean and of one hour; common practice, no source. */
const meanFinding_W_m2 = 20;
const meanFault_W_m2 = 80;
const gross = { W_m2: 100, share: 0.25 };
const mostGrossShare = 0.1;

/** GHI against DHI + DNI·cos θz over the hours with sun. A wrong place, clock or column shows here. */
export function checkClosure({ weather, sun, file, line, dniDerived }: WeatherToCheck): WeatherCheck {
  const closure = closureOf(weather, sun);
  if (dniDerived || !(closure.hours > 0)) return { problems: [], findings: [] };
  const bad: number[] = [];
  for (let hour = 0; hour < sun.up.length; hour += 1) {
    if (sun.sunlitShare[hour]! < 1) continue;
    const ghi = weather.ghi_W_m2[hour]!;
    const other = weather.dhi_W_m2[hour]! + weather.dni_W_m2[hour]! * sun.up[hour]!;
    if (Math.abs(ghi - other) > gross.W_m2 + gross.share * ghi) bad.push(hour);
  }
  const mean = closure.meanAbsolute_W_m2;
  const message =
    `Global radiation differs from diffuse plus direct times cos θz by ${mean.toFixed(1)} W/m² on average over ${closure.hours} hours with sun` +
    (bad.length === 0
      ? ""
      : `, and by more than ${gross.W_m2} W/m² and a quarter of it ${rowsInWords(bad.map((hour) => line[hour]!))}`);
  const place = bad.length === 0 ? {} : { row: line[bad[0]!]! };
  if (mean > meanFault_W_m2 || bad.length > mostGrossShare * closure.hours)
    return {
      problems: [
        weatherProblem(
          file,
          "WEATHER_CLOSURE",
          `${message}; up to ${meanFault_W_m2} W/m² and ${mostGrossShare * 100} % of the hours are allowed. Check the columns, the site's place and the clock.`,
          place,
        ),
      ],
      findings: [],
    };
  if (mean > meanFinding_W_m2 || bad.length > 0)
    return { problems: [], findings: [weatherProblem(file, "WEATHER_CLOSURE", `${message}.`, place)] };
  return { problems: [], findings: [] };
}
