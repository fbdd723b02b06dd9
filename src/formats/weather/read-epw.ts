import type { Problem } from "../../core/problem.ts";
import type { WeatherStation } from "../../core/weather.ts";
import { pointNumber, readColumn } from "./read-column.ts";
import { splitRows } from "./split-rows.ts";
import { rowsInWords, weatherProblem } from "./weather-problems.ts";
import type { WeatherColumn, WeatherQuantity, WeatherRows } from "./weather-rows.ts";

interface EpwField {
  readonly title: string;
  readonly place: number;
  /** Values from here on stand for missing. */
  readonly missingFrom: number;
  /** The file's unit in the core's: value / divisor. */
  readonly divisor: number;
}

/** Position (from 0) and missing code of the fields that are read, by the format's public data dictionary. */
export const epwFields: Readonly<Record<WeatherQuantity, EpwField>> = {
  ambient: { title: "Dry Bulb Temperature", place: 6, missingFrom: 99.9, divisor: 1 },
  humidity: { title: "Relative Humidity", place: 8, missingFrom: 999, divisor: 100 },
  pressure: { title: "Atmospheric Station Pressure", place: 9, missingFrom: 999999, divisor: 1 },
  ghi: { title: "Global Horizontal Radiation", place: 13, missingFrom: 9999, divisor: 1 },
  dni: { title: "Direct Normal Radiation", place: 14, missingFrom: 9999, divisor: 1 },
  dhi: { title: "Diffuse Horizontal Radiation", place: 15, missingFrom: 9999, divisor: 1 },
  wind: { title: "Wind Speed", place: 21, missingFrom: 999, divisor: 1 },
};
const leastCells = 22;

/** EPW: head lines LOCATION to DATA PERIODS, then a row an hour, hours 1–24 marking the end of the interval. */
export function readEpw(text: string, file: string): WeatherRows {
  const problems: Problem[] = [];
  const fault = (code: Parameters<typeof weatherProblem>[1], message: string, row?: number) =>
    problems.push(weatherProblem(file, code, message, row === undefined ? {} : { row }));
  const { cells: all, line: lines, openQuoteAt } = splitRows(text, ",");
  if (openQuoteAt !== null)
    fault("WEATHER_QUOTE_OPEN", "A quotation mark is opened and never closed.", openQuoteAt);
  const head = (row: string[]) => (row[0] ?? "").trim().toUpperCase();
  const periods = all.findIndex((row) => head(row) === "DATA PERIODS");
  if (periods < 0 && openQuoteAt === null)
    fault("WEATHER_HEADER", "The line DATA PERIODS is missing; it must close the head of an EPW file.");
  const locationAt = all.findIndex((row) => head(row) === "LOCATION");
  const station = locationAt < 0 ? null : stationOf(all[locationAt]!);
  if (station === null && openQuoteAt === null)
    fault(
      "WEATHER_HEADER",
      "The line LOCATION must give latitude, longitude, UTC offset and elevation as numbers.",
      locationAt < 0 ? 1 : lines[locationAt],
    );
  const perHour = periods < 0 ? 1 : Number(all[periods]![2]);
  if (perHour !== 1)
    fault(
      "WEATHER_STEP",
      `DATA PERIODS says ${all[periods]![2] ?? "nothing"} records an hour; 1 is allowed.`,
      lines[periods],
    );

  const rows = periods < 0 ? [] : all.slice(periods + 1);
  const line = periods < 0 ? new Int32Array(0) : lines.slice(periods + 1);
  const short = rows.flatMap((row, i) => (row.length < leastCells ? [line[i]!] : []));
  if (short.length > 0)
    fault(
      "WEATHER_ROW_WIDTH",
      `Fewer than the ${leastCells} fields up to wind speed stand ${rowsInWords(short)}.`,
      short[0],
    );

  const month = new Uint8Array(rows.length);
  const day = new Uint8Array(rows.length);
  const hour = new Uint8Array(rows.length);
  const badTimes: number[] = [];
  rows.forEach((row, i) => {
    const [m, d, h] = [Number(row[1]), Number(row[2]), Number(row[3])];
    const whole = Number.isInteger(m) && Number.isInteger(d) && Number.isInteger(h);
    if (!(whole && m >= 1 && m <= 12 && d >= 1 && d <= 31 && h >= 1 && h <= 24)) badTimes.push(line[i]!);
    else {
      month[i] = m;
      day[i] = d;
      hour[i] = h - 1;
    }
  });
  if (badTimes.length > 0)
    fault(
      "WEATHER_TIME",
      `Month 1–12, day 1–31 and hour 1–24 are not found ${rowsInWords(badTimes)}.`,
      badTimes[0],
    );

  const columns: Partial<Record<WeatherQuantity, WeatherColumn>> = {};
  for (const [quantity, field] of Object.entries(epwFields) as [WeatherQuantity, EpwField][]) {
    const read = readColumn(rows, line, {
      file,
      title: field.title,
      place: field.place,
      convert: (value) => value / field.divisor,
      isMissing: (cell, value) => cell === "" || value >= field.missingFrom,
      parse: pointNumber,
    });
    columns[quantity] = read.column;
    problems.push(...read.problems);
  }
  const source = locationAt < 0 ? "" : (all[locationAt]![4] ?? "").trim();
  const description = `EPW file ${file}${station === null ? "" : ` of ${station.name}`}${source === "" ? "" : ` (${source})`}`;
  return { description, station, line, month, day, hour, columns, problems, findings: [] };
}

function stationOf(location: readonly string[]): WeatherStation | null {
  const [, city = "", state = "", country = ""] = location.map((cell) => cell.trim());
  const [latitude_deg, longitude_deg, utcOffset_h, elevation_m] = [6, 7, 8, 9].map((place) =>
    pointNumber((location[place] ?? "").trim()),
  ) as [number, number, number, number];
  if (![latitude_deg, longitude_deg, utcOffset_h, elevation_m].every(Number.isFinite)) return null;
  const name = [city, state, country].filter((part) => part !== "" && part !== "-").join(", ");
  return { name, latitude_deg, longitude_deg, elevation_m, utcOffset_h };
}
