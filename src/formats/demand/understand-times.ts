import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { Question } from "./account.ts";
import { type FaultGroup, type RowFault, shorten } from "./demand-problems.ts";
import type { TimeSource } from "./find-columns.ts";
import { type DateOrder, type RawStamp, readStamp, readTimeOfDay, wallOf } from "./read-stamp.ts";

/** Times of the rows as the file writes them. */
export interface WrittenTimes {
  /** Wall clock, ms as if it were UTC; NaN where the cell is not understood. */
  readonly wall_ms: Float64Array;
  /** UTC offset written with each stamp, minutes; null where stamps carry none. */
  readonly offset_min: Float64Array | null;
  readonly dateOrder: DateOrder | null;
  readonly dateOrderHow: string;
  readonly faults: readonly Omit<FaultGroup, "file" | "column">[];
  readonly questions: readonly Question[];
}

/** Reads the stamps of all rows; the order of day and month is told from all of them together. */
export function understandTimes(
  rows: readonly string[][],
  line: Int32Array,
  time: TimeSource & { kind: "stamp" | "date-and-time" },
  reading: DemandReading,
): WrittenTimes {
  const text = (row: readonly string[]) =>
    time.kind === "stamp" ? row[time.column]! : `${row[time.date]!.trim()} ${row[time.time]!.trim()}`;
  const raw = rows.map((row) =>
    time.kind === "stamp" ? readStamp(row[time.column]!) : joined(row[time.date]!, row[time.time]!),
  );
  const { order, how, dayFirst, monthFirst, question } = findOrder(raw, reading.dateOrder);

  const faults: Omit<FaultGroup, "file" | "column">[] = [];
  const notUnderstood: RowFault[] = [];
  const wall_ms = new Float64Array(rows.length).fill(Number.NaN);
  const offset_min = new Float64Array(rows.length).fill(Number.NaN);
  const mixed = dayFirst.length > 0 && monthFirst.length > 0 && reading.dateOrder === undefined;
  raw.forEach((stamp, i) => {
    if (stamp !== null) {
      wall_ms[i] = wallOf(stamp, stamp.form === "named" ? "dmy" : order);
      if (stamp.offset_min !== null) offset_min[i] = stamp.offset_min;
    }
    if (Number.isNaN(wall_ms[i])) notUnderstood.push({ row: line[i]!, found: text(rows[i]!) });
  });
  if (mixed) {
    const fewer = dayFirst.length < monthFirst.length ? dayFirst : monthFirst;
    const other = fewer === dayFirst ? "month-first" : "day-first";
    faults.push({
      code: "DEMAND_DATE_ORDER_MIXED",
      faults: fewer.map((i) => ({ row: line[i]!, found: text(rows[i]!) })),
      one: (found) =>
        `"${shorten(found)}" cannot be ${other}, but other rows can only be ${other}; write all dates alike.`,
      many: `have dates that cannot be ${other}, while other rows can only be so`,
    });
  } else {
    faults.push({
      code: "DEMAND_TIME_NOT_UNDERSTOOD",
      faults: notUnderstood,
      one: (found) =>
        `"${shorten(found)}" is not a date and time ${orderWords[order]}; give a valid one such as ${orderSamples[order]}.`,
      many: `hold no valid date and time ${orderWords[order]}`,
    });
  }

  const withOffset = offset_min.reduce((count, value) => count + (Number.isNaN(value) ? 0 : 1), 0);
  if (withOffset > 0) {
    const without = raw.flatMap((stamp, i) => (stamp !== null && stamp.offset_min === null ? [i] : []));
    faults.push({
      code: "DEMAND_OFFSET_MIXED",
      faults: without.map((i) => ({ row: line[i]!, found: text(rows[i]!) })),
      one: (found) =>
        `"${shorten(found)}" carries no UTC offset while other rows do; give it in all rows or in none.`,
      many: "carry no UTC offset while other rows do",
    });
  }
  return {
    wall_ms,
    offset_min: withOffset > 0 ? offset_min : null,
    dateOrder: order,
    dateOrderHow: how,
    faults,
    questions: question === null ? [] : [question],
  };
}

const orderWords = {
  ymd: "with the year first",
  dmy: "with the day first",
  mdy: "with the month first",
} as const;
const orderSamples = { ymd: "2023-01-31 14:00", dmy: "31.01.2023 14:00", mdy: "01/31/2023 14:00" } as const;

function joined(date: string, time: string): RawStamp | null {
  const stamp = readStamp(date);
  if (stamp === null) return null;
  const time_ms = readTimeOfDay(time);
  if (time_ms !== null) return { ...stamp, time_ms };
  return readStamp(`${date.trim().split(/[T\s]/)[0]} ${time.trim()}`);
}

function findOrder(raw: readonly (RawStamp | null)[], said: DateOrder | undefined) {
  const dayFirst: number[] = [];
  const monthFirst: number[] = [];
  let yearFirst = 0;
  let yearLast = 0;
  raw.forEach((stamp, i) => {
    if (stamp?.form === "year-first") yearFirst += 1;
    if (stamp?.form !== "year-last") return;
    yearLast += 1;
    if (stamp.a > 12 && stamp.b <= 12) dayFirst.push(i);
    if (stamp.b > 12 && stamp.a <= 12) monthFirst.push(i);
  });
  const base = { dayFirst, monthFirst, question: null };
  if (said !== undefined) return { ...base, order: said, how: "said by user" };
  if (yearFirst >= yearLast) return { ...base, order: "ymd" as const, how: "the dates begin with the year" };
  if (dayFirst.length > 0 || monthFirst.length > 0) {
    const order = dayFirst.length >= monthFirst.length ? ("dmy" as const) : ("mdy" as const);
    return {
      ...base,
      order,
      how: `${order === "dmy" ? "first" : "second"} numbers above 12 can only be days`,
    };
  }
  const question: Question = {
    code: "DEMAND_DATE_ORDER",
    sentence: "No day above 12 occurs, so 01/02 may be 1 February or 2 January; which comes first?",
    field: "dateOrder",
    choices: [
      { value: "dmy", sentence: "day first" },
      { value: "mdy", sentence: "month first" },
    ],
    taken: "dmy",
  };
  return { ...base, order: "dmy" as const, how: "guessed: day first, as no day above 12 occurs", question };
}
