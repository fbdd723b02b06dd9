import type { Outcome } from "../../../src/core/problem.ts";
import { tell } from "../../../src/core/problem.ts";
import type { Site } from "../../../src/core/study/schema/study.ts";
import type { WeatherYear } from "../../../src/core/weather.ts";
import {
  readWeather,
  type WeatherFormat,
  type WeatherOptions,
} from "../../../src/formats/weather/read-weather.ts";
import { phoenix } from "./clear-year.ts";

export const bytesOf = (text: string) => new TextEncoder().encode(text);

export function read(
  text: string | readonly string[],
  site: Site = phoenix,
  format?: WeatherFormat,
  more: Partial<WeatherOptions> = {},
): Outcome<WeatherYear> {
  const whole = typeof text === "string" ? text : text.join("\n");
  return readWeather(bytesOf(whole), {
    file: "w",
    site,
    ...more,
    ...(format === undefined ? {} : { format }),
  });
}

/** Sentences of the faults; empty where it was read. */
export function faults(outcome: Outcome<WeatherYear>): string[] {
  return outcome.ok ? [] : outcome.problems.map(tell);
}

export function faultCodes(outcome: Outcome<WeatherYear>): string[] {
  return outcome.ok ? [] : outcome.problems.map(({ code }) => code);
}

/** The year and the sentences about it; throws with the faults where it was refused. */
export function wellRead(outcome: Outcome<WeatherYear>): { year: WeatherYear; findings: string[] } {
  if (!outcome.ok) throw new Error(outcome.problems.map(tell).join("\n"));
  return { year: outcome.value, findings: outcome.findings.map(tell) };
}

export const seriesNames = [
  "ghi_W_m2",
  "dni_W_m2",
  "dhi_W_m2",
  "ambient_C",
  "humidity_share",
  "wind_m_s",
  "pressure_Pa",
] as const;

/** Largest difference between two years in each series. */
export function differences(a: WeatherYear, b: WeatherYear): Record<string, number> {
  return Object.fromEntries(
    seriesNames.map((name) => [
      name,
      a[name].reduce((most, value, hour) => Math.max(most, Math.abs(value - b[name][hour]!)), 0),
    ]),
  );
}
