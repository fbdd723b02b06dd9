/** Longest run of hours that a straight line may bridge. */
export const longestFill_h = 3;

export interface Filled {
  readonly values: Float64Array;
  readonly filledHours: readonly number[];
  /** Hours of runs that are too long; still NaN. */
  readonly missingHours: readonly number[];
}

/** Bridges runs of NaN of up to three hours by straight lines, over New Year too. */
export function fillShortGaps(series: Float64Array): Filled {
  const values = series.slice();
  const filledHours: number[] = [];
  const missingHours: number[] = [];
  const n = series.length;
  const start = series.findIndex((value) => !Number.isNaN(value));
  if (start < 0) return { values, filledHours, missingHours: Array.from(series.keys()) };
  // Starting at a known hour, a run over the year's end is met in one piece.
  for (let step = 1; step < n; step += 1) {
    const first = (start + step) % n;
    if (!Number.isNaN(series[first])) continue;
    let length = 1;
    while (length < n && Number.isNaN(series[(first + length) % n])) length += 1;
    const before = series[(first - 1 + n) % n]!;
    const after = series[(first + length) % n]!;
    for (let k = 0; k < length; k += 1) {
      const hour = (first + k) % n;
      if (length <= longestFill_h) {
        values[hour] = before + ((after - before) * (k + 1)) / (length + 1);
        filledHours.push(hour);
      } else missingHours.push(hour);
    }
    step += length - 1;
  }
  return { values, filledHours, missingHours };
}
