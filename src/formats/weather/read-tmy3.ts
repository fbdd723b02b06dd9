import type { Problem } from "../../core/problem.ts";
import type { WeatherStation } from "../../core/weather.ts";
import { pointNumber, readColumn } from "./read-column.ts";
import { splitRows } from "./split-rows.ts";
import { rowsInWords, weatherProblem } from "./weather-problems.ts";
import { quantityNames, type WeatherColumn, type WeatherQuantity, type WeatherRows } from "./weather-rows.ts";

/** Columns by the names of the TMY3 manual (NREL/TP-581-43156, 2008), with the divisor to the core's unit. */
export const tmy3Columns: Readonly<Record<WeatherQuantity, readonly [title: string, divisor: number]>> = {
  ghi: ["GHI (W/m^2)", 1],
  dni: ["DNI (W/m^2)", 1],
  dhi: ["DHI (W/m^2)", 1],
  ambient: ["Dry-bulb (C)", 1],
  wind: ["Wspd (m/s)", 1],
  humidity: ["RHum (%)", 100],
  pressure: ["Pressure (mbar)", 0.01],
};
const missing = -9900;

/** TMY3 CSV: a line of station data, a line of names, then a row an hour, times 01:00–24:00 marking its end. */
export function readTmy3(text: string, file: string): WeatherRows {
  const problems: Problem[] = [];
  const { cells: all, line: lines, openQuoteAt } = splitRows(text, ",");
  if (openQuoteAt !== null)
    problems.push(
      weatherProblem(file, "WEATHER_QUOTE_OPEN", "A quotation mark is opened and never closed.", {
        row: openQuoteAt,
      }),
    );
  const station = all.length === 0 ? null : stationOf(all[0]!);
  if (station === null && openQuoteAt === null)
    problems.push(
      weatherProblem(
        file,
        "WEATHER_HEADER",
        "The first line must give the station's number, name, state, UTC offset, latitude, longitude and elevation.",
        { row: 1 },
      ),
    );
  const titles = (all[1] ?? []).map((title) => title.trim());
  const rows = all.slice(2);
  const line = lines.slice(2);

  const dateAt = titles.findIndex((title) => title.startsWith("Date"));
  const timeAt = titles.findIndex((title) => title.startsWith("Time"));
  for (const [name, at] of [
    ["Date (MM/DD/YYYY)", dateAt],
    ["Time (HH:MM)", timeAt],
  ] as const)
    if (at < 0)
      problems.push(
        weatherProblem(file, "WEATHER_COLUMN_MISSING", `The column "${name}" is missing; it is needed.`, {
          row: 2,
        }),
      );
  const times = timesOf(rows, dateAt, timeAt);
  const badTimes = times.bad.map((i) => line[i]!);
  if (badTimes.length > 0 && dateAt >= 0 && timeAt >= 0)
    problems.push(
      weatherProblem(
        file,
        "WEATHER_TIME",
        `A date MM/DD/YYYY with a full hour 01:00–24:00 is not found ${rowsInWords(badTimes)}.`,
        { row: badTimes[0]! },
      ),
    );

  const columns: Partial<Record<WeatherQuantity, WeatherColumn>> = {};
  for (const [quantity, [title, divisor]] of Object.entries(tmy3Columns) as [
    WeatherQuantity,
    readonly [string, number],
  ][]) {
    const place = titles.indexOf(title);
    if (place < 0) {
      if (quantity !== "humidity" && quantity !== "pressure")
        problems.push(
          weatherProblem(
            file,
            "WEATHER_COLUMN_MISSING",
            `The column "${title}" is missing; ${quantityNames[quantity]} is needed.`,
            { row: 2 },
          ),
        );
      continue;
    }
    const read = readColumn(rows, line, {
      file,
      title,
      place,
      convert: (value) => value / divisor,
      isMissing: (cell, value) => cell === "" || value <= missing,
      parse: pointNumber,
    });
    columns[quantity] = read.column;
    problems.push(...read.problems);
  }
  const description = `TMY3 file ${file}${station === null ? "" : ` of ${station.name}`}`;
  const { month, day, hour } = times;
  return { description, station, line, month, day, hour, columns, problems, findings: [] };
}

function stationOf(head: readonly string[]): WeatherStation | null {
  const [utcOffset_h, latitude_deg, longitude_deg, elevation_m] = [3, 4, 5, 6].map((place) =>
    pointNumber((head[place] ?? "").trim()),
  ) as [number, number, number, number];
  if (![latitude_deg, longitude_deg, utcOffset_h, elevation_m].every(Number.isFinite)) return null;
  const name = [head[1] ?? "", head[2] ?? ""]
    .map((part) => part.trim())
    .filter((part) => part !== "")
    .join(", ");
  return { name, latitude_deg, longitude_deg, elevation_m, utcOffset_h };
}

function timesOf(rows: readonly string[][], dateAt: number, timeAt: number) {
  const month = new Uint8Array(rows.length);
  const day = new Uint8Array(rows.length);
  const hour = new Uint8Array(rows.length);
  const bad: number[] = [];
  rows.forEach((row, i) => {
    const date = /^(\d{1,2})\/(\d{1,2})\/(\d{4})$/.exec((row[dateAt] ?? "").trim());
    const time = /^(\d{1,2}):00$/.exec((row[timeAt] ?? "").trim());
    const [m, d, label] = [Number(date?.[1]), Number(date?.[2]), Number(time?.[1])];
    if (date === null || time === null || !(m >= 1 && m <= 12 && d >= 1 && d <= 31 && label <= 24)) {
      bad.push(i);
      return;
    }
    // Some copies write 00:00 of the next day for 24:00; both mean the hour that ends then.
    const start = new Date(Date.UTC(Number(date[3]), m - 1, d) + (label - 1) * 3_600_000);
    month[i] = label === 0 ? start.getUTCMonth() + 1 : m;
    day[i] = label === 0 ? start.getUTCDate() : d;
    hour[i] = label === 0 ? 23 : label - 1;
  });
  return { month, day, hour, bad };
}
