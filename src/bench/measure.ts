/** Wall time of `run`, s, and what it gave. */
export function timed<T>(run: () => T): { readonly value: T; readonly time_s: number } {
  const began = performance.now();
  const value = run();
  return { value, time_s: (performance.now() - began) / 1000 };
}

/** Median wall time of `count` runs, s. */
export async function medianTime_s(count: number, run: () => unknown): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < count; i += 1) {
    const began = performance.now();
    await run();
    times.push((performance.now() - began) / 1000);
  }
  return median(times);
}

/** The middle one, or the upper of the two middle ones. */
export function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}
