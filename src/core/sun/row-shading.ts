import { ModelError } from "../errors.ts";
import type { Aim } from "./mounts.ts";
import type { SunYear } from "./sun-year.ts";

/**
 * Share of the aperture that the rows in front leave in the sun, one entry an hour; 1 where there is no
 * beam on the aperture.
 *
 * min(1, cos θz / (groundCover · cos θi)): of the light that falls on a m² of flat land, the aperture above
 * it can take no more than all. Exact for endless parallel rows, fixed or on one axis (for a horizontal
 * axis cos θz / cos θi = cos of the tracking angle; Stuetzle 2002, eq. for row shading). For single
 * apertures on two axes or a vertical axis it is the least shading that any layout can have.
 *
 * @param groundCover aperture area per land area, above 0 to 1
 * @throws ModelError OUT_OF_RANGE
 */
export function rowShading(sun: SunYear, aim: Aim, groundCover: number): Float64Array {
  if (!(groundCover > 0 && groundCover <= 1))
    throw new ModelError("OUT_OF_RANGE", `ground cover ${groundCover}`);
  return Float64Array.from(aim.cosIncidence, (cosine, hour) =>
    cosine > 0 ? Math.min(1, sun.up[hour]! / (groundCover * cosine)) : 1,
  );
}
