import { civilLabel, monthNames, type StudyCalendar } from "../calendar.ts";

/** When a year of lacks falls, in the site's civil time. */
export interface LackTime {
  readonly first: string;
  readonly last: string;
  /** Index of the hour that lacks most. */
  readonly worst: number;
  /** Where most of it falls: "on December mornings"; empty where it is spread or a single hour. */
  readonly mostly: string;
}

/** Parts of the day by civil hour at the start of the hour; the first is what is left. */
const dayParts = [
  { on: "nights", in: "at night", from: 0, to: 24 },
  { on: "mornings", in: "in the morning", from: 5, to: 11 },
  { on: "middays", in: "around midday", from: 11, to: 15 },
  { on: "afternoons", in: "in the afternoon", from: 15, to: 18 },
  { on: "evenings", in: "in the evening", from: 18, to: 22 },
] as const;

/** A share from which on it is called most of it. */
const mostOfIt = 0.6;

/**
 * Says when something is lacking.
 *
 * @param lack by hour of the study year, 0 where nothing lacks; at least one hour lacks
 */
export function lackTime(lack: Float64Array, calendar: StudyCalendar): LackTime {
  let first = -1;
  let last = -1;
  let worst = 0;
  let count = 0;
  let total = 0;
  const cells = new Float64Array(12 * dayParts.length);
  for (let t = 0; t < lack.length; t += 1) {
    if (!(lack[t] > 0)) continue;
    if (first < 0) first = t;
    last = t;
    if (lack[t] > lack[worst]) worst = t;
    count += 1;
    total += lack[t];
    cells[(calendar.civilMonth[t] - 1) * dayParts.length + partOf(calendar.civilHour[t])] += lack[t];
  }
  return {
    first: civilLabel(calendar, first),
    last: civilLabel(calendar, last),
    worst,
    mostly: count > 1 ? mostly(cells, total) : "",
  };
}

/** "17 Jan 07:00" of an ISO label. */
export function shortLabel(label: string): string {
  const [, month = "", day = "", time = ""] = /^\d+-(\d+)-(\d+)T(\d+:\d+)/.exec(label) ?? [];
  return `${Number(day)} ${(monthNames[Number(month) - 1] ?? "").slice(0, 3)} ${time}`;
}

function partOf(hour: number): number {
  const part = dayParts.findIndex(({ from, to }, n) => n > 0 && hour >= from && hour < to);
  return Math.max(0, part);
}

/** The fewest months in a row, three at most, and the part of the day that hold most of it together. */
function mostly(cells: Float64Array, total: number): string {
  const share = (months_: readonly number[], part: number | null) => {
    let sum = 0;
    for (const month of months_) {
      for (let p = 0; p < dayParts.length; p += 1) {
        if (part === null || part === p) sum += cells[month * dayParts.length + p];
      }
    }
    return sum / total;
  };
  const year = monthNames.map((_, month) => month);
  const parts = dayParts.map((_, part) => part);
  const best = <T>(choices: readonly T[], of: (choice: T) => number) =>
    choices.reduce((a, b) => (of(b) > of(a) ? b : a));
  const part = best(parts, (p) => share(year, p));
  const hasPart = share(year, part) >= mostOfIt;
  for (let length = 1; length <= 3; length += 1) {
    const runs = year.map((from) => Array.from({ length }, (_, n) => (from + n) % 12));
    const run = best(runs, (months_) => share(months_, null));
    if (share(run, null) < mostOfIt) continue;
    const joint = hasPart && share(run, part) >= 0.5;
    const [from, to] = [monthNames[run[0]!]!, monthNames[run.at(-1)!]!];
    if (length === 1) return joint ? `on ${from} ${dayParts[part]!.on}` : `in ${from}`;
    const span = length === 2 ? `in ${from} and ${to}` : `from ${from} to ${to}`;
    return joint ? `on ${dayParts[part]!.on} ${span}` : span;
  }
  return hasPart ? dayParts[part]!.in : "";
}
