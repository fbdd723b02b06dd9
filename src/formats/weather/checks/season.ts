import type { Problem } from "../../../core/problem.ts";
import { extraterrestrialHorizontal_W_m2 } from "../../../core/sun/extraterrestrial.ts";
import { sunYear } from "../../../core/sun/sun-year.ts";
import type { WeatherCheck, WeatherToCheck } from "../check-weather.ts";
import { weatherProblem } from "../weather-problems.ts";

/** Nearer to the equator the seasons of the light do not tell north from south. */
const leastLatitude_deg = 15;

/** Half-years differ by so much against the site's summer on no land from 15° on; common practice, no source. */
const colderSummer_K = 2;

/**
 * Whether a year whose light is impossible at the site fits the same latitude on the other side of the equator.
 * To be asked only of a year that is refused anyway: a rainy summer alone looks like a winter.
 */
export function checkSeason({ weather, sun, site, file }: WeatherToCheck): WeatherCheck {
  const none = { problems: [], findings: [] };
  if (Math.abs(site.latitude_deg) < leastLatitude_deg) return none;
  const { here, there } = contrasts({ weather, sun, site });
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

/**
 * The same question of a year that nothing else speaks against. Light alone would be misled by a rainy summer, so
 * the air must say so too: colder in the half-year that should be the site's summer, and the light no better with the
 * site where it is.
 */
export function askSeason({ weather, sun, site, file }: WeatherToCheck): Problem[] {
  if (Math.abs(site.latitude_deg) < leastLatitude_deg) return [];
  const warmer_K = warmerFromApril_K(weather.ambient_C) * (site.latitude_deg < 0 ? -1 : 1);
  if (!(warmer_K < -colderSummer_K)) return [];
  const { here, there } = contrasts({ weather, sun, site });
  if (!(there < here)) return [];
  const side = site.latitude_deg < 0 ? "south" : "north";
  return [
    weatherProblem(
      file,
      "WEATHER_SEASON",
      `At ${Math.abs(site.latitude_deg)}° ${side} the year's summer is ${(-warmer_K).toFixed(1)} K colder than its winter, and its light fits the other side of the equator better. Is the sign of the site's latitude right, and does the file begin with January? It is used as it stands.`,
    ),
  ];
}

function contrasts({ weather, sun, site }: Pick<WeatherToCheck, "weather" | "sun" | "site">) {
  const mirrored = { ...site, latitude_deg: -site.latitude_deg };
  const contrast = (above: Float64Array) => seasonContrast(weather.ghi_W_m2, above);
  return {
    here: contrast(extraterrestrialHorizontal_W_m2(sun, site.latitude_deg)),
    there: contrast(extraterrestrialHorizontal_W_m2(sunYear(mirrored), mirrored.latitude_deg)),
  };
}

/** Mean of April to September less that of the rest of the year. */
function warmerFromApril_K(ambient_C: Float64Array): number {
  const meanWhere = (fromApril: boolean) => {
    const half = ambient_C.filter((air, hour) => Number.isFinite(air) && isFromApril(hour) === fromApril);
    return half.reduce((sum, air) => sum + air, 0) / half.length;
  };
  return meanWhere(true) - meanWhere(false);
}

function isFromApril(hour: number): boolean {
  const day = Math.floor(hour / 24);
  return day >= 90 && day < 273;
}

/** |ln| of the clearness from April to September over that of the rest of the year; small where light and sky agree. */
function seasonContrast(ghi_W_m2: Float64Array, above_W_m2: Float64Array): number {
  const summer = { light: 0, sky: 0 };
  const winter = { light: 0, sky: 0 };
  for (let hour = 0; hour < ghi_W_m2.length; hour += 1) {
    if (!(ghi_W_m2[hour]! >= 0)) continue;
    const part = isFromApril(hour) ? summer : winter;
    part.light += ghi_W_m2[hour]!;
    part.sky += above_W_m2[hour]!;
  }
  return Math.abs(Math.log((summer.light * winter.sky) / (summer.sky * winter.light)));
}
