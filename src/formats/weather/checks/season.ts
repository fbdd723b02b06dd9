import { extraterrestrialHorizontal_W_m2 } from "../../../core/sun/extraterrestrial.ts";
import { sunYear } from "../../../core/sun/sun-year.ts";
import type { WeatherCheck, WeatherToCheck } from "../check-weather.ts";
import { weatherProblem } from "../weather-problems.ts";

/** Nearer to the equator the seasons of the light do not tell north from south. */
const leastLatitude_deg = 15;

/**
 * Whether a year whose light is impossible at the site fits the same latitude on the other side of the equator.
 * To be asked only of a year that is refused anyway: a rainy summer alone looks like a winter.
 */
export function checkSeason({ weather, sun, site, file }: WeatherToCheck): WeatherCheck {
  const none = { problems: [], findings: [] };
  if (Math.abs(site.latitude_deg) < leastLatitude_deg) return none;
  const mirrored = { ...site, latitude_deg: -site.latitude_deg };
  const here = seasonContrast(weather.ghi_W_m2, extraterrestrialHorizontal_W_m2(sun, site.latitude_deg));
  const there = seasonContrast(
    weather.ghi_W_m2,
    extraterrestrialHorizontal_W_m2(sunYear(mirrored), mirrored.latitude_deg),
  );
  if (!(there < 0.5 * here)) return none;
  return {
    problems: [
      weatherProblem(
        file,
        "WEATHER_SEASON",
        `The year's light has its summer when the site at ${Math.abs(site.latitude_deg)}° ${site.latitude_deg < 0 ? "south" : "north"} has winter; the sign of the site's latitude looks wrong.`,
      ),
    ],
    findings: [],
  };
}

/** |ln| of the clearness from April to September over that of the rest of the year; small where light and sky agree. */
function seasonContrast(ghi_W_m2: Float64Array, above_W_m2: Float64Array): number {
  const summer = { light: 0, sky: 0 };
  const winter = { light: 0, sky: 0 };
  for (let hour = 0; hour < ghi_W_m2.length; hour += 1) {
    if (!(ghi_W_m2[hour]! >= 0)) continue;
    const day = Math.floor(hour / 24);
    const part = day >= 90 && day < 273 ? summer : winter;
    part.light += ghi_W_m2[hour]!;
    part.sky += above_W_m2[hour]!;
  }
  return Math.abs(Math.log((summer.light * winter.sky) / (summer.sky * winter.light)));
}
