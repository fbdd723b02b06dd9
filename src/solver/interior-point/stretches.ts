const most = 256;

/**
 * Goes through 0 ≤ i < count in stretches of some hundred, so that the loop over a stretch is a method
 * that is called often. V8 compiles a single long loop in the middle of its only run, knowing nothing of
 * what comes behind it, and has to compile again when the next solve gets there.
 */
export function stretches(count: number, each: (from: number, to: number) => void): void {
  for (let from = 0; from < count; from += most) each(from, Math.min(count, from + most));
}
