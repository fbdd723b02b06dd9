import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { DemandQuantity, Question } from "./account.ts";
import { type CellKind, columnKind } from "./column-kind.ts";
import type { DemandProblemCode } from "./demand-problems.ts";
import { fits, unitInHeader } from "./find-unit.ts";
import { looksLikeNumber } from "./read-number.ts";
import { readStamp } from "./read-stamp.ts";
import type { Records } from "./split-records.ts";

/** Where the time of a row stands. `count`: rows counted from 0 or 1. `none`: rows follow one another. */
export type TimeSource =
  | { readonly kind: "stamp"; readonly column: number }
  | { readonly kind: "date-and-time"; readonly date: number; readonly time: number }
  | { readonly kind: "count"; readonly column: number }
  | { readonly kind: "none" };

/** The table inside the file. */
export interface Layout {
  readonly width: number;
  readonly names: readonly string[];
  /** Index of the header among the records; −1 without one. */
  readonly header: number;
  /** Index of the first row of data among the records. */
  readonly firstData: number;
  readonly time: TimeSource | null;
  readonly value: number | null;
  readonly problems: readonly { readonly code: DemandProblemCode; readonly message: string }[];
  readonly questions: readonly Question[];
}

const hourName = /^(?:hours?|hr|time|uhrzeit|zeit|stunde|std|heure|hora|ora|tid|klokka)\b/i;

/** Finds header, time column and value column, by what the reading says or by what the cells look like. */
export function findColumns(records: Records, reading: DemandReading, quantity: DemandQuantity): Layout {
  const width = commonWidth(records.cells);
  const sample = spread(
    records.cells.filter((row) => row.length === width),
    400,
  );
  const kinds = Array.from({ length: width }, (_, column) => columnKind(sample, column));
  const problems: { code: DemandProblemCode; message: string }[] = [];
  const questions: Question[] = [];

  const guess = guessTime(kinds, sample);
  const firstData = findFirstData(records, width, guess);
  const header = findHeader(records.cells, width, firstData);
  const names = columnNames(records.cells, width, header);

  let time: TimeSource | null = guess;
  if (guess?.kind === "date-and-time" && guess.time < 0)
    time = withHourColumn(guess.date, kinds, names, sample);
  if (reading.timeColumn !== undefined) {
    time = namedTime(reading.timeColumn, names, kinds);
    if (time === null) problems.push(unknownColumn(reading.timeColumn, "time", names));
  } else if (time === null) {
    problems.push({
      code: "DEMAND_NO_TIME_COLUMN",
      message:
        "No column of dates and times was found; a time may stand as 2023-01-31 14:00, 31.01.2023 14:00, 1/31/2023 2:00 PM, or as a date and a time in two columns, or the rows must be counted from 0 or 1.",
    });
  } else {
    const stamps = kinds.flatMap((kind, column) => (kind === "stamp" ? [names[column]!] : []));
    if (stamps.length > 1) {
      questions.push({
        code: "DEMAND_WHICH_TIME",
        sentence: "More than one column holds dates and times; which one tells when a value was metered?",
        field: "timeColumn",
        choices: stamps.map((name) => ({ value: name, sentence: name })),
        taken: stamps[0]!,
      });
    }
  }

  const used = time === null ? [] : timeColumns(time);
  const numbers = kinds.flatMap((kind, column) =>
    kind === "number" && !used.includes(column) ? [column] : [],
  );
  let value: number | null = null;
  if (reading.valueColumn !== undefined) {
    const column = columnByName(reading.valueColumn, names);
    if (column === null) problems.push(unknownColumn(reading.valueColumn, "value", names));
    else value = column;
  } else if (numbers.length === 0) {
    problems.push({
      code: "DEMAND_NO_VALUE_COLUMN",
      message: `No column holds mostly numbers beside the time; the columns found are ${names.join(", ") || "none"}.`,
    });
  } else {
    const fitting = numbers.find((column) => {
      const unit = unitInHeader(names[column]!, quantity)?.unit;
      return unit !== null && unit !== undefined && fits(quantity, unit);
    });
    value = fitting ?? numbers[0]!;
    if (numbers.length > 1) {
      questions.push({
        code: "DEMAND_WHICH_VALUE",
        sentence: `${numbers.length} columns hold numbers; which one is meant?`,
        field: "valueColumn",
        choices: numbers.map((column) => ({ value: names[column]!, sentence: names[column]! })),
        taken: names[value]!,
      });
    }
  }
  return { width, names, header, firstData, time, value, problems, questions };
}

/** The columns that a time is read from. */
export function timeColumns(time: TimeSource): number[] {
  if (time.kind === "none") return [];
  return time.kind === "date-and-time" ? [time.date, time.time] : [time.column];
}

function commonWidth(rows: readonly string[][]): number {
  const tally = new Map<number, number>();
  for (const row of rows) tally.set(row.length, (tally.get(row.length) ?? 0) + 1);
  let width = 0;
  for (const [length, count] of tally) if (count > (tally.get(width) ?? 0)) width = length;
  return width;
}

function spread<T>(items: readonly T[], most: number): T[] {
  if (items.length <= most) return [...items];
  return Array.from({ length: most }, (_, k) => items[Math.floor((k * items.length) / most)]!);
}

function guessTime(kinds: readonly CellKind[], sample: readonly string[][]): TimeSource | null {
  const stamp = kinds.indexOf("stamp");
  if (stamp >= 0) return { kind: "stamp", column: stamp };
  const date = kinds.indexOf("date");
  if (date >= 0) return { kind: "date-and-time", date, time: kinds.indexOf("time") };
  const count = kinds.findIndex((kind, column) => kind === "number" && isCount(sample, column));
  if (count >= 0 && kinds.filter((kind) => kind === "number").length > 1)
    return { kind: "count", column: count };
  return kinds.filter((kind) => kind !== "empty").length === 1 && kinds.includes("number")
    ? { kind: "none" }
    : null;
}

/** Whole numbers that rise from row to row. */
function isCount(sample: readonly string[][], column: number): boolean {
  let previous = Number.NEGATIVE_INFINITY;
  let rows = 0;
  for (const row of sample) {
    const text = row[column]!.trim();
    if (!/^\d+$/.test(text)) continue;
    if (!(+text > previous)) return false;
    previous = +text;
    rows += 1;
  }
  return rows > sample.length * 0.9 && rows > 2;
}

/** A date column without times beside it: hours may stand as whole numbers 0–23 or 1–24. */
function withHourColumn(
  date: number,
  kinds: readonly CellKind[],
  names: readonly string[],
  sample: readonly string[][],
): TimeSource {
  const time = kinds.findIndex(
    (kind, column) =>
      kind === "number" &&
      (hourName.test(names[column]!) || column === date + 1) &&
      new Set(sample.map((row) => row[column])).size >= 12 &&
      sample.filter((row) => /^\s*(?:1?\d|2[0-4])\s*$/.test(row[column]!)).length > sample.length * 0.95,
  );
  return time < 0 ? { kind: "stamp", column: date } : { kind: "date-and-time", date, time };
}

function findFirstData(records: Records, width: number, time: TimeSource | null): number {
  const rows = records.cells;
  const isData = (row: readonly string[]) => {
    if (row.length < width) return false;
    if (time === null || time.kind === "none") return row.some(looksLikeNumber);
    const cell = row[timeColumns(time)[0]!]!;
    return time.kind === "count" ? /^\s*\d+\s*$/.test(cell) : readStamp(cell) !== null;
  };
  const first = rows.findIndex(isData);
  if (first < 0) return Math.min(1, rows.length);
  // A broken stamp in the very first row must be told as a fault, not pass for a header.
  const above = rows[first - 1];
  if (above !== undefined && time !== null && time.kind !== "none" && above.length === width) {
    const column = timeColumns(time)[0]!;
    const values = above.filter((_, k) => !timeColumns(time).includes(k));
    if (/\d/.test(above[column]!) && values.some((cell) => looksLikeNumber(cell))) return first - 1;
  }
  return first;
}

function findHeader(rows: readonly string[][], width: number, firstData: number): number {
  const above = rows[firstData - 1];
  if (above === undefined) return -1;
  return trimmedLength(above) === width || above.length === width ? firstData - 1 : -1;
}

function columnNames(rows: readonly string[][], width: number, header: number): string[] {
  const cells = Array.from({ length: width }, (_, column) => {
    if (header < 0) return "";
    const own = rows[header]![column]?.trim() ?? "";
    const above = rows[header - 1];
    // A line of units under the names leaves the time column's cell empty.
    return own === "" && above !== undefined && above.length === width ? above[column]!.trim() : own;
  });
  const doubled = cells.map((name, column) => {
    if (header < 1 || name === "" || cells.indexOf(name) === cells.lastIndexOf(name)) return name;
    const above = rows[header - 1]!;
    const group = above.length === width ? above[column]!.trim() : "";
    return group === "" || group === name ? name : `${group} ${name}`;
  });
  return doubled.map((name, column) =>
    name === "" || name.length > 200 || doubled.indexOf(name) !== doubled.lastIndexOf(name)
      ? `column ${column + 1}`
      : name,
  );
}

function columnByName(name: string, names: readonly string[]): number | null {
  const exact = names.indexOf(name);
  if (exact >= 0) return exact;
  const wanted = name.trim().toLowerCase();
  const loose = names.flatMap((other, column) => (other.toLowerCase() === wanted ? [column] : []));
  if (loose.length === 1) return loose[0]!;
  const place = /^column (\d+)$/.exec(wanted);
  const column = place === null ? -1 : +place[1]! - 1;
  return column >= 0 && column < names.length ? column : null;
}

/** `Date + Time` names two columns. */
function namedTime(name: string, names: readonly string[], kinds: readonly CellKind[]): TimeSource | null {
  const column = columnByName(name, names);
  if (column !== null) return { kind: kinds[column] === "number" ? "count" : "stamp", column };
  for (let at = name.indexOf(" + "); at >= 0; at = name.indexOf(" + ", at + 1)) {
    const date = columnByName(name.slice(0, at), names);
    const time = columnByName(name.slice(at + 3), names);
    if (date !== null && time !== null) return { kind: "date-and-time", date, time };
  }
  return null;
}

function unknownColumn(name: string, what: string, names: readonly string[]) {
  return {
    code: "DEMAND_COLUMN_UNKNOWN" as const,
    message: `The reading names "${name}" as the ${what} column; the file's columns are ${names.join(", ") || "none"}.`,
  };
}

function trimmedLength(row: readonly string[]): number {
  let length = row.length;
  while (length > 0 && row[length - 1]!.trim() === "") length -= 1;
  return length;
}
