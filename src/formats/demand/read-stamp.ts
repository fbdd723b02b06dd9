export type DateOrder = "ymd" | "dmy" | "mdy";

/** A date and time as written; which of `a` and `b` is the day is settled later from all rows. */
export interface RawStamp {
  /** year-first: a month, b day. year-last: first and second number. named: a month, b day. */
  readonly form: "year-first" | "year-last" | "named";
  readonly year: number;
  readonly a: number;
  readonly b: number;
  /** Minutes and seconds of the day, ms; null where only a date is written. */
  readonly time_ms: number | null;
  /** UTC offset written with the time, minutes; null where there is none. */
  readonly offset_min: number | null;
}

const yearFirst = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?:[T\s,]+(.+))?$/;
const compact = /^((?:19|20)\d{2})(0[1-9]|1[0-2])([0-3]\d)(?:[T\s]?(\d{2}:?\d{2}(?::?\d{2})?)(.*))?$/;
const yearLast = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})(?:[T\s,]+(.+))?$/;
const named = /^(\d{1,2})[-/ .]+([A-Za-z]{3,9})[-/ .,]+(\d{4}|\d{2})(?:[T\s,]+(.+))?$/;
const clock =
  /^(\d{1,2})[:.h](\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)?\s*([AaPp])?\.?(?:[Mm]\.?)?\s*(Z|UTC|GMT|[+-]\d{2}:?(?:\d{2})?)?$/;
const monthNames = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/** A date with or without time; null where the text is none. 24:00 is the next day's midnight. */
export function readStamp(cell: string): RawStamp | null {
  const text = cell.trim();
  const first = yearFirst.exec(text);
  if (first !== null) return stamp("year-first", +first[1]!, +first[3]!, +first[4]!, first[5]);
  const last = yearLast.exec(text);
  if (last !== null) return stamp("year-last", fullYear(last[4]!), +last[1]!, +last[3]!, last[5]);
  const dense = compact.exec(text);
  if (dense !== null) {
    const digits = dense[4]?.replace(/:/g, "").replace(/(\d\d)(?=\d)/g, "$1:");
    const time = digits === undefined ? undefined : `${digits}${dense[5] ?? ""}`;
    return stamp("year-first", +dense[1]!, +dense[2]!, +dense[3]!, time);
  }
  const words = named.exec(text);
  if (words === null) return null;
  const month = monthNames.indexOf(words[2]!.slice(0, 3).toLowerCase()) + 1;
  return month === 0 ? null : stamp("named", fullYear(words[3]!), month, +words[1]!, words[4]);
}

/** Time of day alone, ms; a bare whole number 0 to 24 is an hour. Null where the text is none. */
export function readTimeOfDay(cell: string): number | null {
  const text = cell.trim();
  return readClock(/^\d{1,2}$/.test(text) ? `${text}:00` : text)?.time_ms ?? null;
}

/** The wall clock as ms, as if it were UTC; NaN where the date or its order is impossible. */
export function wallOf(raw: RawStamp, order: DateOrder): number {
  if ((raw.form === "year-first" && order !== "ymd") || (raw.form === "year-last" && order === "ymd")) {
    return Number.NaN;
  }
  const dayFirst = raw.form === "year-last" && order === "dmy";
  const month = dayFirst ? raw.b : raw.a;
  const day = dayFirst ? raw.a : raw.b;
  if (month < 1 || month > 12 || day < 1) return Number.NaN;
  const midnight = Date.UTC(raw.year, month - 1, day);
  if (new Date(midnight).getUTCDate() !== day) return Number.NaN;
  return midnight + (raw.time_ms ?? 0);
}

function stamp(
  form: RawStamp["form"],
  year: number,
  a: number,
  b: number,
  rest: string | undefined,
): RawStamp | null {
  if (year < 1900 || year > 2200) return null;
  if (rest === undefined) return { form, year, a, b, time_ms: null, offset_min: null };
  const time = readClock(rest);
  return time === null ? null : { form, year, a, b, ...time };
}

function readClock(text: string): { time_ms: number; offset_min: number | null } | null {
  const match = clock.exec(text);
  if (match === null) return null;
  let hour = +match[1]!;
  const minute = +match[2]!;
  const second = +(match[3] ?? 0);
  if (match[4] !== undefined) {
    if (hour < 1 || hour > 12) return null;
    hour = (hour % 12) + (match[4].toLowerCase() === "p" ? 12 : 0);
  }
  if (minute > 59 || second > 59 || hour > 24 || (hour === 24 && minute + second > 0)) return null;
  const time_ms = ((hour * 60 + minute) * 60 + second) * 1000;
  return { time_ms, offset_min: match[5] === undefined ? null : offsetMinutes(match[5]) };
}

function offsetMinutes(text: string): number {
  if (/^[A-Z]/.test(text)) return 0;
  const digits = text.slice(1).replace(":", "").padEnd(4, "0");
  const minutes = +digits.slice(0, 2) * 60 + +digits.slice(2);
  return text.startsWith("-") ? -minutes : minutes;
}

const fullYear = (text: string) => (text.length === 2 ? 2000 + +text : +text);
