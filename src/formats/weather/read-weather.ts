import { found, type Outcome, type Problem, refused } from "../../core/problem.ts";
import type { Site } from "../../core/study/schema/study.ts";
import { sunYear } from "../../core/sun/sun-year.ts";
import type { DiffuseModel, WeatherYear } from "../../core/weather.ts";
import { decodeText } from "../demand/decode-text.ts";
import { checkWeather } from "./check-weather.ts";
import { completeWeather } from "./complete-weather.ts";
import { pickYear } from "./pick-year.ts";
import { placeHours } from "./place-hours.ts";
import { readEpw } from "./read-epw.ts";
import { readPlainWeather } from "./read-plain-weather.ts";
import { readTmy3 } from "./read-tmy3.ts";
import { weatherProblem } from "./weather-problems.ts";
import type { WeatherRows } from "./weather-rows.ts";

export type WeatherFormat = "epw" | "tmy3" | "csv";

export interface WeatherOptions {
  /** Name of the file for sentences. */
  readonly file: string;
  /** Told from the content where left out. */
  readonly format?: WeatherFormat;
  readonly site: Site;
  /** How far the station may lie from the site by the user's word; 100 km are allowed of themselves. */
  readonly distanceAccepted_km?: number;
  /** Which calendar year to take of a file that holds several. */
  readonly year?: number;
  /** How beam and diffuse follow where the file holds only global light; Erbs where left out. */
  readonly diffuseBy?: DiffuseModel;
}

/**
 * A weather year on the site's clock out of an EPW, TMY3 or plain CSV file: every fault at once, or the
 * year with findings about what was mended and what looks odd.
 */
export function readWeather(bytes: Uint8Array, options: WeatherOptions): Outcome<WeatherYear> {
  const { file, site } = options;
  const text = decodeText(bytes)?.text.replace(/^\ufeff/, "");
  if (text === undefined)
    return refused([
      weatherProblem(file, "WEATHER_NOT_TEXT", "The file is not text; UTF-8, UTF-16 or Latin-1 is allowed."),
    ]);
  const format = options.format ?? formatOf(text);
  if (format === null)
    return refused([
      weatherProblem(
        file,
        "WEATHER_FORMAT_UNKNOWN",
        "The file is neither EPW (first line LOCATION), TMY3 CSV (second line Date, Time, ETR …) nor a CSV with titled columns.",
        { row: 1 },
      ),
    ]);
  const rows =
    format === "epw"
      ? readEpw(text, file)
      : format === "tmy3"
        ? readTmy3(text, file)
        : readPlainWeather(text, file, site);
  return onStudyHours(rows, options);
}

/** The format that the content shows; null where it shows none. Notes of a plain CSV (#) stand before its titles. */
export function formatOf(text: string): WeatherFormat | null {
  const lines = text.slice(0, 20_000).split(/\r\n|\n|\r/);
  const [first = "", second = ""] = lines;
  if (/^\s*LOCATION\s*,/i.test(first)) return "epw";
  if (/^\s*"?Date \(MM\/DD\/YYYY\)"?\s*,/i.test(second)) return "tmy3";
  const titles = lines.find((line) => line.trim() !== "" && !line.startsWith("#")) ?? "";
  return /[A-Za-z]/.test(titles) && /[,;\t]/.test(titles) ? "csv" : null;
}

function onStudyHours(
  read: WeatherRows,
  { file, site, distanceAccepted_km, diffuseBy, year }: WeatherOptions,
): Outcome<WeatherYear> {
  const picked = pickYear(read, file, year);
  if (picked.problems.length > 0) return refused([...read.problems, ...picked.problems]);
  const { rows } = picked;
  const clock = clockShift(rows, file, site);
  const placed = placeHours(rows, file, clock.shift_h);
  const unread = [...rows.problems, ...clock.problems, ...placed.problems];
  if (placed.rowOf.every((row) => row < 0)) return refused(unread);
  const sun = sunYear(site);
  const completed = completeWeather(rows, placed.rowOf, {
    ...{ file, site, sun },
    ...(diffuseBy === undefined ? {} : { diffuseBy }),
  });
  const problems = [...unread, ...completed.problems];
  const findings = [...rows.findings, ...clock.findings, ...placed.findings, ...completed.findings];
  // Checks of the whole year say nothing of value while hours or columns are missing.
  const light = [completed.weather.ghi_W_m2, completed.weather.dni_W_m2, completed.weather.dhi_W_m2];
  if (light.some((series) => series.some((value) => value > 0))) {
    const line = placed.rowOf.map((row) => (row < 0 ? 0 : rows.line[row]!));
    const { weather, dniDerived } = completed;
    const check = checkWeather({
      ...{ weather, sun, site, file, line, dniDerived },
      ...(distanceAccepted_km === undefined ? {} : { distanceAccepted_km }),
    });
    if (problems.length === 0) {
      problems.push(...check.problems);
      findings.push(...check.findings);
    } else problems.push(...check.problems.filter((problem) => problem.code !== "WEATHER_NO_LIGHT"));
  } else if (problems.length === 0)
    problems.push(
      weatherProblem(file, "WEATHER_NO_LIGHT", "All radiation in the file is zero.", { column: "ghi" }),
    );
  return problems.length > 0 ? refused(problems) : found(completed.weather, findings);
}

function clockShift(rows: WeatherRows, file: string, site: Site) {
  const none: Problem[] = [];
  const { station } = rows;
  const ahead_h = station === null ? 0 : site.utcOffset_h - station.utcOffset_h;
  if (ahead_h === 0) return { shift_h: 0, problems: none, findings: none };
  const offsets = `The station's standard time is ${station!.utcOffset_h} h from UTC and the site's ${site.utcOffset_h} h`;
  if (!Number.isInteger(ahead_h))
    return {
      shift_h: 0,
      problems: [
        weatherProblem(
          file,
          "WEATHER_OFFSET",
          `${offsets}; hourly rows cannot be moved by a part of an hour, so a difference of whole hours is allowed.`,
        ),
      ],
      findings: none,
    };
  return {
    shift_h: ahead_h,
    problems: none,
    findings: [
      weatherProblem(
        file,
        "WEATHER_OFFSET",
        `${offsets}; the rows were moved by ${ahead_h > 0 ? "+" : "−"}${Math.abs(ahead_h)} h onto the site's clock.`,
      ),
    ],
  };
}
