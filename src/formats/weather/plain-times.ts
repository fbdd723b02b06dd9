import type { Problem } from "../../core/problem.ts";
import { type DateOrder, type RawStamp, readStamp, wallOf } from "../demand/read-stamp.ts";
import { rowsInWords, weatherProblem } from "./weather-problems.ts";

export interface PlainTimes {
  readonly month: Uint8Array;
  readonly day: Uint8Array;
  readonly hour: Uint8Array;
  /** Left out where no year is told. */
  readonly year?: Int16Array;
  readonly problems: readonly Problem[];
  readonly findings: readonly Problem[];
  /** Places of the columns that hold the time. */
  readonly places: readonly number[];
}

const hour_ms = 3_600_000;

/**
 * The times of a plain CSV: columns month, day and hour, or one column of time stamps. Whether they mark
 * the start or the end of the hour is told from the title, from hours 0 or 24, or from the first row.
 */
export function plainTimes(
  titles: readonly string[],
  rows: readonly (readonly string[])[],
  line: Int32Array,
  { file, utcOffset_h }: { readonly file: string; readonly utcOffset_h: number },
): PlainTimes {
  const lower = titles.map((title) => title.trim().toLowerCase());
  const place = (pattern: RegExp) => lower.findIndex((title) => pattern.test(title));
  const parts = [place(/^month/), place(/^day/), place(/^hour/)];
  const yearAt = place(/^year/);
  const stampAt = place(/^(time|date|timestamp|datetime|local time|utc)/);
  const empty = {
    month: new Uint8Array(rows.length),
    day: new Uint8Array(rows.length),
    hour: new Uint8Array(rows.length),
  };
  const problems: Problem[] = [];
  const byParts = parts.every((at) => at >= 0);
  if (!byParts && stampAt < 0)
    return {
      ...empty,
      findings: [],
      places: [],
      problems: [
        weatherProblem(
          file,
          "WEATHER_COLUMN_MISSING",
          "No column of times was found; columns month, day and hour, or one column named time are needed.",
        ),
      ],
    };
  const title = lower[byParts ? parts[2]! : stampAt]!;
  const read = byParts ? fromParts(rows, parts) : fromStamps(rows, stampAt, utcOffset_h);
  const bad: number[] = [];
  read.wall.forEach((wall, i) => {
    if (Number.isNaN(wall)) bad.push(line[i]!);
  });
  if (bad.length > 0)
    problems.push(
      weatherProblem(
        file,
        "WEATHER_TIME",
        `A date and hour that can be read in the file's form are not found ${rowsInWords(bad)}.`,
        { row: bad[0]!, column: titles[byParts ? parts[2]! : stampAt]! },
      ),
    );
  const year = byParts && yearAt < 0 ? null : new Int16Array(rows.length);
  const mark = markOf(title, read);
  if (mark === null && rows.length > 0)
    problems.push(
      weatherProblem(
        file,
        "WEATHER_LABELS",
        "It is not clear whether the times mark the start or the end of their hour; name the column hour_start, hour_end, time_start or time_end.",
        { column: titles[byParts ? parts[2]! : stampAt]! },
      ),
    );
  read.wall.forEach((wall, i) => {
    if (Number.isNaN(wall)) return;
    const start = new Date(mark === "end" ? wall - hour_ms : wall);
    empty.month[i] = start.getUTCMonth() + 1;
    empty.day[i] = start.getUTCDate();
    empty.hour[i] = start.getUTCHours();
    if (year === null) return;
    if (!byParts) year[i] = start.getUTCFullYear();
    else {
      const told = readYear(rows[i]![yearAt]);
      // Dates in parts are kept in 2023; hour 0 of 1 January marks the end of the year before.
      if (told > 0) year[i] = told - (start.getUTCFullYear() < 2023 ? 1 : 0);
    }
  });
  const findings =
    mark === null
      ? []
      : [
          weatherProblem(
            file,
            "WEATHER_LABELS_READ",
            `Times are taken to mark the ${mark} of their hour, in ${read.converted ? "the UTC offset that they carry" : "standard time"}.`,
          ),
        ];
  const places = !byParts ? [stampAt] : yearAt < 0 ? parts : [...parts, yearAt];
  return { ...empty, ...(year === null ? {} : { year }), problems, findings, places };
}

/** A calendar year as written; 0 where it is none. */
function readYear(cell: string | undefined): number {
  const text = (cell ?? "").trim();
  return /^\d{4}$/.test(text) ? Number(text) : 0;
}

interface ReadTimes {
  /** As if it were UTC, ms; NaN where it cannot be read. */
  readonly wall: Float64Array;
  readonly has0: boolean;
  readonly has24: boolean;
  /** Hour of the first row as written, NaN where unread. */
  readonly first_h: number;
  readonly converted: boolean;
}

function fromParts(rows: readonly (readonly string[])[], [m, d, h]: readonly number[]): ReadTimes {
  const wall = new Float64Array(rows.length);
  let has0 = false;
  let has24 = false;
  let first_h = Number.NaN;
  rows.forEach((row, i) => {
    const [month, day, hour] = [m!, d!, h!].map((at) => {
      const cell = (row[at] ?? "").trim();
      return /^\d{1,2}$/.test(cell) ? Number(cell) : Number.NaN;
    }) as [number, number, number];
    // 2023 and 2024: 29 February is understood, and the year plays no part later.
    const midnight = Date.UTC(month === 2 && day === 29 ? 2024 : 2023, month - 1, day);
    const real = month >= 1 && month <= 12 && new Date(midnight).getUTCDate() === day;
    wall[i] = real && hour <= 24 ? midnight + hour * hour_ms : Number.NaN;
    if (hour === 0) has0 = true;
    if (hour === 24) has24 = true;
    if (i === 0) first_h = hour;
  });
  return { wall, has0, has24, first_h, converted: false };
}

function fromStamps(rows: readonly (readonly string[])[], at: number, utcOffset_h: number): ReadTimes {
  const stamps = rows.map((row) => readStamp((row[at] ?? "").trim()));
  const order = orderOf(stamps);
  const wall = new Float64Array(rows.length).fill(Number.NaN);
  let has24 = false;
  let converted = false;
  stamps.forEach((stamp, i) => {
    if (stamp === null || stamp.time_ms === null || order === null) return;
    if (stamp.time_ms === 24 * hour_ms) has24 = true;
    const written = wallOf(stamp, stamp.form === "year-first" ? "ymd" : order);
    if (stamp.offset_min !== null) converted = true;
    const shift_ms = stamp.offset_min === null ? 0 : utcOffset_h * hour_ms - stamp.offset_min * 60_000;
    wall[i] = written + shift_ms;
  });
  const first = stamps[0]?.time_ms;
  return {
    wall,
    // With time stamps 00:00 is written both for starts and for ends.
    has0: false,
    has24,
    first_h: first === undefined || first === null ? Number.NaN : first / hour_ms,
    converted,
  };
}

function orderOf(stamps: readonly (RawStamp | null)[]): DateOrder | null {
  const yearLast = stamps.filter((stamp) => stamp?.form === "year-last");
  if (yearLast.length === 0) return "dmy";
  const dayFirst = yearLast.some((stamp) => stamp!.a > 12);
  const monthFirst = yearLast.some((stamp) => stamp!.b > 12);
  if (dayFirst === monthFirst) return null;
  return dayFirst ? "dmy" : "mdy";
}

function markOf(title: string, { has0, has24, first_h }: ReadTimes): "start" | "end" | null {
  if (/start|begin/.test(title)) return "start";
  if (/end/.test(title)) return "end";
  if (has0 && has24) return null;
  if (has24) return "end";
  if (has0) return "start";
  // Means stamped at half past lie within their own hour.
  if (first_h >= 0 && first_h < 1) return "start";
  return first_h === 1 ? "end" : null;
}
