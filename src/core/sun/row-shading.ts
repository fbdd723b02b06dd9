import { ModelError } from "../errors.ts";
import type { Mount } from "../study/schema/mount.ts";
import { cosineTo, type UnitVector } from "./incidence.ts";
import type { Aim } from "./mounts.ts";
import { axisFrame } from "./one-axis.ts";
import { roundGridShare } from "./round-grid-shading.ts";
import type { SunYear } from "./sun-year.ts";

/**
 * Share of the aperture that the rows in front leave in the sun, one entry an hour; 1 where there is no
 * beam on the aperture.
 *
 * min(1, cos θz / (groundCover · cos θi)): of the light that falls on a m² of flat land, the aperture above
 * it can take no more than all. Exact for endless parallel rows, fixed or on one horizontal axis (cos θz /
 * cos θi = cos of the tracking angle; Stuetzle 2002, eq. for row shading) or together on one vertical axis.
 * On a tilted axis s · n0, with n0 the normal of the aperture that is not turned, stands for cos θz where it
 * is the smaller: endless rows in the plane of their axes. Two axes: round apertures on a square grid, see
 * roundGridShare.
 *
 * @param groundCover aperture area per land area, above 0 to 1, on two axes to π/4
 * @throws ModelError OUT_OF_RANGE
 */
export function rowShading(sun: SunYear, aim: Aim, groundCover: number, mount: Mount): Float64Array {
  if (!(groundCover > 0 && groundCover <= 1))
    throw new ModelError("OUT_OF_RANGE", `ground cover ${groundCover}`);
  const onGrid = mount.type === "two-axes" ? roundGridShare(groundCover) : () => 1;
  const onLand =
    mount.type === "one-axis" && mount.axisTilt_deg > 0
      ? besideTiltedAxis(sun, axisFrame(mount.azimuth_deg, mount.axisTilt_deg).rest)
      : (hour: number) => sun.up[hour]!;
  return Float64Array.from(aim.cosIncidence, (cosine, hour) =>
    cosine > 0 ? Math.min(onGrid(sun.up[hour]!), onLand(hour) / (groundCover * cosine)) : 1,
  );
}

function besideTiltedAxis(sun: SunYear, rest: UnitVector): (hour: number) => number {
  return (hour) => Math.max(0, Math.min(sun.up[hour]!, cosineTo(sun, hour, rest)));
}
