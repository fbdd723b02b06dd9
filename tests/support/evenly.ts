import fc from "fast-check";

/** Numbers spread evenly from `min` to `max`; fc.double spreads over exponents, so that most lie next to 0. */
export function evenly(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
}
