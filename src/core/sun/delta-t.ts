import { ModelError } from "../errors.ts";

/**
 * Terrestrial time less universal time, s: polynomials of Espenak & Meeus, Five Millennium Canon of
 * Solar Eclipses, NASA/TP-2006-214141 (2006). Measured values since 2015 lie some seconds below the
 * polynomial; 10 s move the sun by 0.0001°.
 *
 * @param year with its fraction, 1941 to 2150
 * @throws ModelError OUT_OF_RANGE
 */
export function deltaT_s(year: number): number {
  if (!(year >= 1941 && year <= 2150)) throw new ModelError("OUT_OF_RANGE", `year ${year}`);
  if (year < 1961) {
    const t = year - 1950;
    return 29.07 + t * (0.407 + t * (-1 / 233 + t / 2547));
  }
  if (year < 1986) {
    const t = year - 1975;
    return 45.45 + t * (1.067 + t * (-1 / 260 - t / 718));
  }
  const t = year - 2000;
  if (year < 2005) {
    return 63.86 + t * (0.3345 + t * (-0.060374 + t * (0.0017275 + t * (0.000651814 + t * 0.00002373599))));
  }
  if (year < 2050) return 62.92 + t * (0.32217 + t * 0.005589);
  return -20 + 32 * ((year - 1820) / 100) ** 2 - 0.5628 * (2150 - year);
}
