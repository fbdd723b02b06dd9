import type { SunYear } from "../../core/sun/sun-year.ts";

/** Noise of two instruments that agree; common practice, no source. */
const noise_W_m2 = 5;

/**
 * Diffuse from global and direct normal radiation, GHI − DNI·cos θz, W/m², not below 0; θz at the middle of the
 * hour's sunlit part, since DNI is the mean of the whole hour. NaN where either is missing.
 *
 * @returns the hours in which it came out below −5 W/m², and the lowest of them
 */
export function deriveDhi(
  ghi_W_m2: Float64Array,
  dni_W_m2: Float64Array,
  sun: SunYear,
): {
  readonly dhi_W_m2: Float64Array;
  readonly negativeHours: readonly number[];
  readonly least_W_m2: number;
} {
  const negativeHours: number[] = [];
  let least_W_m2 = 0;
  const dhi_W_m2 = ghi_W_m2.map((ghi, hour) => {
    const rest = ghi - dni_W_m2[hour]! * sun.up[hour]!;
    if (rest < -noise_W_m2) negativeHours.push(hour);
    if (rest < least_W_m2) least_W_m2 = rest;
    return Number.isNaN(rest) ? rest : Math.max(0, rest);
  });
  return { dhi_W_m2, negativeHours, least_W_m2 };
}
