import { hoursPerYear } from "../series.ts";

/** A week of logged hours against what the others say of it. */
export interface WeekLeftOut {
  /** First hour of the week, an hour index. */
  readonly from: number;
  /** Hours of it that were logged. */
  readonly logged_h: number;
  /** Sum of its logged hours, and the same by a fit to all other weeks. */
  readonly logged: number;
  readonly foretold: number;
}

/** A log of part of a year as a base and a level on a calendar's shares. */
export interface CalendarFit {
  /** Rate at share 0, and what share 1 adds; neither below 0. */
  readonly base: number;
  readonly level: number;
  /** Share of the variance of the logged hours that the fit explains. */
  readonly r2: number;
  readonly logged_h: number;
  /** Weeks with at least half their hours logged, each left out in turn; empty with fewer than three. */
  readonly weeks: readonly WeekLeftOut[];
  /** Standard deviation of a left-out week's sum about its forecast, as a share of it; NaN without weeks. */
  readonly weekError: number;
  /** Each half of the log foretold by the other: root mean square miss of its sum; NaN without weeks. */
  readonly halfError: number;
}

export interface ExtendedYear {
  /** The logged hours as they are, all others by the fit. */
  readonly hourly: Float64Array;
  readonly fit: CalendarFit;
  readonly extended_h: number;
  /** Sum over the hours that were not logged. */
  readonly extended: number;
  /**
   * Standard error of `extended`: what its weeks scatter by themselves, as those left out, with the error of
   * a fit to n of them; or, where that is more, what the halves of the log miss each other by, as a drift
   * does. NaN without weeks. It knows nothing of seasons that were not logged.
   */
  readonly extendedError: number;
}

export const leastLogged_h = 336;
const week_h = 168;

/**
 * A year from a log of part of it. `hourly`: 8760 rates, NaN where nothing is known. `metered`: 1 where an
 * hour was metered itself; hours filled from their neighbours are kept and not fitted to. `sharesThen`: the
 * calendar's shares on the dates of the log, in the log's own year with its weekdays; `shares`: those of the
 * study's year. Null with fewer than 336 metered hours, or where the calendar has one share in all of them.
 */
export function extendByCalendar(
  hourly: Float64Array,
  metered: Uint8Array,
  sharesThen: Float64Array,
  shares: Float64Array,
): ExtendedYear | null {
  const logged: number[] = [];
  for (let t = 0; t < hoursPerYear; t += 1) if (metered[t] === 1 && !Number.isNaN(hourly[t])) logged.push(t);
  const line = logged.length < leastLogged_h ? null : fitLine(hourly, sharesThen, logged);
  if (line === null) return null;

  const weeks = weeksLeftOut(hourly, sharesThen, logged);
  const fit: CalendarFit = {
    ...line,
    r2: explained(hourly, sharesThen, logged, line),
    logged_h: logged.length,
    weeks,
    weekError: weekErrorOf(weeks),
    halfError: weeks.length === 0 ? Number.NaN : halfErrorOf(hourly, sharesThen, logged),
  };
  const out = hourly.slice();
  let [extended, extended_h] = [0, 0];
  for (let t = 0; t < hoursPerYear; t += 1) {
    if (!Number.isNaN(hourly[t])) continue;
    out[t] = line.base + line.level * shares[t]!;
    extended += out[t]!;
    extended_h += 1;
  }
  const spread = Math.sqrt(week_h / Math.max(1, extended_h) + 1 / Math.max(1, weeks.length));
  return {
    hourly: out,
    fit,
    extended_h,
    extended,
    extendedError: extended * Math.max(fit.weekError * spread, fit.halfError),
  };
}

interface Line {
  readonly base: number;
  readonly level: number;
}

/** Least squares of rate = base + level · share; where one would fall below 0, the best without it. */
function fitLine(rate: Float64Array, share: Float64Array, hours: readonly number[]): Line | null {
  let [s, ss, r, rs] = [0, 0, 0, 0];
  for (const t of hours) {
    s += share[t]!;
    ss += share[t]! ** 2;
    r += rate[t]!;
    rs += rate[t]! * share[t]!;
  }
  const n = hours.length;
  const determinant = n * ss - s * s;
  if (!(determinant > 1e-9 * n * ss)) return null;
  const level = (n * rs - s * r) / determinant;
  const base = (r - level * s) / n;
  if (level < 0) return { base: r / n, level: 0 };
  return base < 0 ? { base: 0, level: rs / ss } : { base, level };
}

function explained(rate: Float64Array, share: Float64Array, hours: readonly number[], line: Line): number {
  const mean = hours.reduce((sum, t) => sum + rate[t]!, 0) / hours.length;
  let [residual, variance] = [0, 0];
  for (const t of hours) {
    residual += (rate[t]! - line.base - line.level * share[t]!) ** 2;
    variance += (rate[t]! - mean) ** 2;
  }
  return variance > 0 ? 1 - residual / variance : 1;
}

/** Weeks are counted from the log's first hour, the year being a ring that begins after its longest gap. */
function weeksLeftOut(rate: Float64Array, share: Float64Array, logged: readonly number[]): WeekLeftOut[] {
  const start = logged[startAfterLongestGap(logged)]!;
  const weekOf = (t: number) => Math.floor(((t - start + hoursPerYear) % hoursPerYear) / week_h);
  const byWeek = new Map<number, number[]>();
  for (const t of logged) {
    const week = weekOf(t);
    const hours = byWeek.get(week);
    if (hours === undefined) byWeek.set(week, [t]);
    else hours.push(t);
  }
  const whole = [...byWeek.entries()].filter(([, hours]) => hours.length >= week_h / 2);
  if (whole.length < 3) return [];
  return whole.flatMap(([week, hours]): WeekLeftOut[] => {
    const line = fitLine(
      rate,
      share,
      logged.filter((t) => weekOf(t) !== week),
    );
    if (line === null) return [];
    return [
      {
        from: (start + week * week_h) % hoursPerYear,
        logged_h: hours.length,
        logged: hours.reduce((sum, t) => sum + rate[t]!, 0),
        foretold: hours.reduce((sum, t) => sum + line.base + line.level * share[t]!, 0),
      },
    ];
  });
}

function halfErrorOf(rate: Float64Array, share: Float64Array, logged: readonly number[]): number {
  const at = startAfterLongestGap(logged);
  const inOrder = [...logged.slice(at), ...logged.slice(0, at)];
  const middle = Math.floor(inOrder.length / 2);
  const halves = [inOrder.slice(0, middle), inOrder.slice(middle)];
  const misses = halves.map((half, i) => {
    const line = fitLine(rate, share, halves[1 - i]!);
    if (line === null) return 0;
    const foretold = half.reduce((sum, t) => sum + line.base + line.level * share[t]!, 0);
    const logged = half.reduce((sum, t) => sum + rate[t]!, 0);
    return foretold > 0 ? (logged - foretold) / foretold : 0;
  });
  return Math.hypot(...misses) / Math.SQRT2;
}

function startAfterLongestGap(logged: readonly number[]): number {
  let [longest, at] = [0, 0];
  logged.forEach((t, i) => {
    const before = i === 0 ? logged.at(-1)! - hoursPerYear : logged[i - 1]!;
    if (t - before > longest) [longest, at] = [t - before, i];
  });
  return at;
}

function weekErrorOf(weeks: readonly WeekLeftOut[]): number {
  if (weeks.length === 0) return Number.NaN;
  const errors = weeks.map(({ logged, foretold }) => (foretold > 0 ? (logged - foretold) / foretold : 0));
  return Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / weeks.length);
}
