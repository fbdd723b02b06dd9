import { hourIndex } from "../calendar.ts";
import { hoursPerYear } from "../series.ts";

/** Metered intervals on the study's standard time. All arrays have one entry per interval. */
export interface MeteredIntervals {
  /** Start of the interval, ms, read as if standard time were UTC. */
  readonly start_ms: Float64Array;
  /** Mean rate over the interval; NaN where missing. */
  readonly rate: Float64Array;
  /** File line of the interval. */
  readonly line: Int32Array;
  readonly step_min: number;
}

/** The same energy by hours of the study year. */
export interface HoursFromIntervals {
  /** Mean of what is known of the hour; NaN where less than half of it is known. */
  readonly hourly: Float64Array;
  /** Share of each hour that is known, 0 to 1. */
  readonly known: Float64Array;
  /** First and last file line that feeds the hour; 0 where none does. */
  readonly firstLine: Int32Array;
  readonly lastLine: Int32Array;
  /** Positions of intervals on 29 February, which the study year leaves out. */
  readonly leapDay: readonly number[];
  /** Energy (rate × hours) left out with 29 February. */
  readonly leapDayTotal: number;
  /** Intervals whose place in the year is taken by an earlier one: [earlier, later]. */
  readonly doubles: readonly (readonly [number, number])[];
}

const hour_ms = 3_600_000;

/**
 * Averages intervals into the 8760 hours of the study year, by month, day and hour of standard time,
 * whatever the year; 29 February is left out. An interval that straddles hours is shared out by time.
 * Of two intervals for the same time only the first is used; both are told in `doubles`.
 */
export function resampleToHours(intervals: MeteredIntervals): HoursFromIntervals {
  const { start_ms, rate, line, step_min } = intervals;
  const step_ms = step_min * 60_000;
  const stepsPerHour = 60 / step_min;
  const total = new Float64Array(hoursPerYear);
  const steps = new Float64Array(hoursPerYear);
  const firstLine = new Int32Array(hoursPerYear);
  const lastLine = new Int32Array(hoursPerYear);
  const leapDay: number[] = [];
  const doubles: [number, number][] = [];
  const taken = new Map<number, number>();
  let leapDayTotal = 0;

  for (let i = 0; i < start_ms.length; i += 1) {
    const start = start_ms[i];
    const startHour = Math.floor(start / hour_ms) * hour_ms;
    const startIndex = yearIndex(startHour);
    if (startIndex < 0) {
      leapDay.push(i);
      if (!Number.isNaN(rate[i])) leapDayTotal += rate[i] / stepsPerHour;
      continue;
    }
    const slot_ms = startIndex * hour_ms + (start - startHour);
    const earlier = taken.get(slot_ms);
    if (earlier !== undefined) {
      doubles.push([earlier, i]);
      continue;
    }
    taken.set(slot_ms, i);
    for (let from = start; from < start + step_ms; ) {
      const hour = Math.floor(from / hour_ms) * hour_ms;
      const until = Math.min(start + step_ms, hour + hour_ms);
      const index = hour === startHour ? startIndex : yearIndex(hour);
      if (index >= 0) {
        if (firstLine[index] === 0 || line[i] < firstLine[index]) firstLine[index] = line[i];
        if (line[i] > lastLine[index]) lastLine[index] = line[i];
        if (!Number.isNaN(rate[i])) {
          // Weights in steps keep a whole interval exact: rate × 1 / 1.
          const weight = (until - from) / step_ms;
          total[index] += rate[i] * weight;
          steps[index] += weight;
        }
      }
      from = until;
    }
  }

  const known = steps.map((count) => Math.min(1, count / stepsPerHour));
  const hourly = total.map((sum, h) => (known[h] >= 0.5 - 1e-9 ? sum / steps[h] : Number.NaN));
  return { hourly, known, firstLine, lastLine, leapDay, leapDayTotal, doubles };
}

/** Hour of the study year that starts at `hour_ms`; −1 on 29 February. */
function yearIndex(ms: number): number {
  const date = new Date(ms);
  const month = date.getUTCMonth() + 1;
  const day = date.getUTCDate();
  return month === 2 && day === 29 ? -1 : hourIndex(month, day, date.getUTCHours());
}
