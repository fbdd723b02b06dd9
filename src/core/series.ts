import { ModelError } from "./errors.ts";

/** Intervals of a study year; interval 0 is 1 January 00:00–01:00 standard time, 29 February is dropped. */
export const hoursPerYear = 8760;

export function sum(series: Float64Array): number {
  let total = 0;
  for (let i = 0; i < series.length; i += 1) total += series[i];
  return total;
}

export function largest(series: Float64Array): number {
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < series.length; i += 1) if (series[i] > top) top = series[i];
  return top;
}

/** a·b summed over the hours. @throws ModelError SERIES_LENGTH */
export function dot(a: Float64Array, b: Float64Array): number {
  if (a.length !== b.length) throw new ModelError("SERIES_LENGTH", `${a.length} and ${b.length}`);
  let total = 0;
  for (let i = 0; i < a.length; i += 1) total += a[i] * b[i];
  return total;
}

/** Mean of the hours; that of equal values is the value itself. */
export function mean(series: Float64Array): number {
  // Summed as differences from the first, so that a constant comes back without rounding.
  const first = series[0];
  let total = 0;
  for (let i = 0; i < series.length; i += 1) total += series[i] - first;
  return first + total / series.length;
}

/** A year of one value. */
export function constantYear(value: number): Float64Array {
  return new Float64Array(hoursPerYear).fill(value);
}
