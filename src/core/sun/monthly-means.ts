import { hourIndex, monthLength_days } from "../calendar.ts";
import { hoursPerYear } from "../series.ts";

/** First hour of each month, and the end of the year. */
export const monthStarts: readonly number[] = Array.from({ length: 13 }, (_, month) =>
  month === 12 ? hoursPerYear : hourIndex(month + 1, 1, 0),
);

/** Mean of each of the twelve months. */
export function monthlyMeans(series: Float64Array): Float64Array {
  return Float64Array.from({ length: 12 }, (_, month) => {
    let total = 0;
    for (let hour = monthStarts[month]!; hour < monthStarts[month + 1]!; hour += 1) total += series[hour]!;
    return total / (monthLength_days(month + 1) * 24);
  });
}

/** A curve through the year, straight between mid-months, one value an hour; December joins January. */
export function betweenMonths(values: ArrayLike<number>): Float64Array {
  const curve = new Float64Array(hoursPerYear);
  for (let month = 0; month < 12; month += 1) {
    const from = middle(month);
    const to = middle(month + 1);
    for (let hour = Math.ceil(from); hour < to; hour += 1) {
      const x = (hour - from) / (to - from);
      curve[hour % hoursPerYear] = values[month]! * (1 - x) + values[(month + 1) % 12]! * x;
    }
  }
  return curve;
}

/** `series` plus a smooth curve that gives each month the wanted mean. */
export function movedToMeans(series: Float64Array, means: ArrayLike<number>): Float64Array {
  return corrected(series, (found) => Float64Array.from(found, (mean, month) => means[month]! - mean), "add");
}

/** `series` times a smooth curve that gives each month the wanted mean; both above 0. */
export function scaledToMeans(series: Float64Array, means: ArrayLike<number>): Float64Array {
  return corrected(
    series,
    (found) => Float64Array.from(found, (mean, month) => means[month]! / mean),
    "multiply",
  );
}

function corrected(
  series: Float64Array,
  correction: (found: Float64Array) => Float64Array,
  how: "add" | "multiply",
): Float64Array {
  const moved = series.slice();
  for (let round = 0; round < 30; round += 1) {
    const change = correction(monthlyMeans(moved));
    if (change.every((value) => Math.abs(value - (how === "add" ? 0 : 1)) < 1e-6)) break;
    const curve = betweenMonths(change);
    for (let hour = 0; hour < hoursPerYear; hour += 1) {
      moved[hour] = how === "add" ? moved[hour]! + curve[hour]! : moved[hour]! * curve[hour]!;
    }
  }
  return moved;
}

function middle(month: number): number {
  const wrapped = month % 12;
  const hour = (monthStarts[wrapped]! + monthStarts[wrapped + 1]!) / 2;
  return month === 12 ? hour + hoursPerYear : hour;
}
