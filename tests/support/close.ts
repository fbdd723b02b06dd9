import { expect } from "vitest";

/**
 * Asserts that `actual` rounds to a number as it is printed in a source.
 * The tolerance is half of the last printed digit, so nobody picks it by hand.
 */
export function expectPrinted(actual: number, printed: string): void {
  const [mantissa = "", exponent = "0"] = printed.toLowerCase().split("e");
  const decimals = mantissa.split(".")[1]?.length ?? 0;
  const tolerance = 0.5 * 10 ** (Number(exponent) - decimals) * (1 + 1e-9);
  const agrees = Math.abs(actual - Number(printed)) <= tolerance;
  expect(agrees, `${actual} does not print as ${printed}`).toBe(true);
}

/** Asserts |actual − expected| ≤ tolerance·max(1, |expected|). NaN fails. */
export function expectClose(actual: number, expected: number, tolerance: number): void {
  const agrees = Math.abs(actual - expected) <= tolerance * Math.max(1, Math.abs(expected));
  expect(agrees, `${actual} is not within ${tolerance} of ${expected}`).toBe(true);
}
