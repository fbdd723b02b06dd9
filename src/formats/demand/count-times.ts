import { hourIndex } from "../../core/calendar.ts";
import { hoursPerYear } from "../../core/series.ts";

const stepsPerHour = [1, 2, 3, 4, 6, 12, 60] as const;

/**
 * Wall-clock times of rows that are counted (from 0 or 1) instead of stamped, as a year of 365 days
 * that begins with the first count. NaN where a cell is no whole number; null where the count does not
 * end at 8760 rows or a multiple that divides the hour.
 */
export function countTimes(counts: readonly (string | number)[], year: number): Float64Array | null {
  const numbers = Float64Array.from(counts, (count) =>
    /^\s*\d+\s*$/.test(String(count)) ? Number(count) : Number.NaN,
  );
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const number of numbers) {
    if (number < least) least = number;
    if (number > most) most = number;
  }
  const first = least === 0 ? 0 : 1;
  const perHour = stepsPerHour.find((steps) => steps * hoursPerYear === most - first + 1);
  if (perHour === undefined) return null;
  const leapDayFrom_ms = hourIndex(3, 1, 0) * 3_600_000;
  const leapDay_ms = new Date(Date.UTC(year, 1, 29)).getUTCMonth() === 1 ? 86_400_000 : 0;
  return numbers.map((number) => {
    const since_ms = ((number - first) * 3_600_000) / perHour;
    return Date.UTC(year, 0, 1) + since_ms + (since_ms >= leapDayFrom_ms ? leapDay_ms : 0);
  });
}
