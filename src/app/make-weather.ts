import { found, type Outcome, type Problem, refused } from "../core/problem.ts";
import type { Site } from "../core/study/schema/study.ts";
import { clearSkyYear } from "../core/sun/clear-sky.ts";
import { sunYear } from "../core/sun/sun-year.ts";
import { type MonthlyMeans, syntheticYear } from "../core/sun/synthetic-year.ts";
import type { WeatherYear } from "../core/weather.ts";
import { readWeather } from "../formats/weather/read-weather.ts";
import { writePlainWeather } from "../formats/weather/write-plain-weather.ts";

/** A year that was made, as the file that keeps it and as that file is read again. */
export interface MadeWeather {
  readonly text: string;
  readonly weather: WeatherYear;
}

const mostSeed = 99_999;
const turbidities = { least: 2, most: 8 } as const;

/** The whole number that deals out days and hours. */
export function readSeed(typed: string): Outcome<number> {
  const seed = /^\d{1,6}$/.test(typed.trim()) ? Number(typed) : Number.NaN;
  if (seed <= mostSeed) return found(seed);
  return refused([
    problem(
      "MEANS_SEED",
      `The seed is "${typed.trim()}"; a whole number from 0 to ${mostSeed} is allowed.`,
      "seed",
    ),
  ]);
}

/** Linke turbidity of a cloudless sky. */
export function readTurbidity(typed: string): Outcome<number> {
  const turbidity = typed.trim() === "" ? Number.NaN : Number(typed.trim().replace(",", "."));
  const { least, most } = turbidities;
  if (turbidity >= least && turbidity <= most) return found(turbidity);
  return refused([
    problem(
      "MEANS_TURBIDITY",
      `The Linke turbidity is "${typed.trim()}"; a number from ${least} (very clear air) to ${most} is allowed.`,
      "turbidity",
    ),
  ]);
}

function problem(code: string, message: string, path: string): Problem {
  return { code, message, place: { path } };
}

/** A year from monthly means: the same means, seed and site give the same file. */
export function weatherFromMeans(
  site: Site,
  means: MonthlyMeans,
  seed: number,
  file: string,
): Outcome<MadeWeather> {
  const lists = ["clearness", "ambient_C", "dailySwing_K", "humidity_share", "wind_m_s"] as const;
  const notes = [
    ...lists.map(
      (name) => `mean_${name}: ${means[name].map((value) => Number(value.toPrecision(12))).join(" ")}`,
    ),
    `seed: ${seed}`,
  ];
  return kept(site, syntheticYear(site, means, seed), notes, file);
}

/** A cloudless year with the air and wind of another one. */
export function weatherOfClearSky(
  site: Site,
  air: WeatherYear,
  linkeTurbidity: number,
  file: string,
): Outcome<MadeWeather> {
  const year = clearSkyYear(sunYear(site), air, linkeTurbidity);
  const tenth = (series: Float64Array) => series.map((value) => Math.round(value * 10) / 10);
  const rounded = {
    ...year,
    ghi_W_m2: tenth(year.ghi_W_m2),
    dni_W_m2: tenth(year.dni_W_m2),
    dhi_W_m2: tenth(year.dhi_W_m2),
  };
  return kept(site, rounded, [], file);
}

/** What is kept is the file, so what is shown is the file as it is read. */
function kept(site: Site, year: WeatherYear, notes: readonly string[], file: string): Outcome<MadeWeather> {
  const { latitude_deg, longitude_deg, elevation_m, utcOffset_h } = site;
  // The place goes with the year, so that a study moved elsewhere does not keep it unseen.
  const station = { name: `made for ${site.name}`, latitude_deg, longitude_deg, elevation_m, utcOffset_h };
  const text = writePlainWeather({ ...year, station }, notes);
  const read = readWeather(new TextEncoder().encode(text), { file, site });
  return read.ok ? found({ text, weather: read.value }, read.findings) : read;
}
