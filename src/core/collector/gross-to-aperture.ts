import { ModelError } from "../errors.ts";

/**
 * A figure of a test report that is per m² of gross area, per m² of aperture instead. Holds for η0 and for
 * every loss coefficient a1 to a8 of ISO 9806:2017, which reports on gross area; modifiers do not change.
 *
 * @throws ModelError OUT_OF_RANGE where an area is not above 0 or the gross area is the smaller
 */
export function grossToAperture(perGross: number, gross_m2: number, aperture_m2: number): number {
  if (!(aperture_m2 > 0 && gross_m2 >= aperture_m2)) {
    throw new ModelError("OUT_OF_RANGE", `gross ${gross_m2} m², aperture ${aperture_m2} m²`);
  }
  return (perGross * gross_m2) / aperture_m2;
}
