import { hoursPerYear } from "../series.ts";
import type { Mount } from "../study/schema/collector.ts";
import { radians } from "../units.ts";
import { cosineTo } from "./incidence.ts";
import { placements } from "./mount-placement.ts";
import type { SunYear } from "./sun-year.ts";

/** How an aperture meets the sun, one entry an hour. */
export interface Aim {
  /** 0 where the sun is down or behind the aperture. */
  readonly cosIncidence: Float64Array;
  /** 0 to 90; 90 where the sun is down or behind the aperture. */
  readonly incidence_deg: Float64Array;
  /** Incidence projected on the plane of the aperture's normal and its long axis, 0 to 90; 90 as above. */
  readonly longitudinal_deg: Float64Array;
  /** Incidence projected on the plane across the long axis, 0 to 90; 90 as above. */
  readonly transversal_deg: Float64Array;
  /** Lean of the aperture from flat; a tracker lies as flat as it can while the sun is down. */
  readonly apertureTilt_deg: Float64Array;
  /**
   * Turn about the axis of a one-axis mount: north–south, west positive; east–west, toward the equator
   * positive; an axis that falls toward azimuth A, toward A + 90° positive.
   */
  readonly trackingAngle_deg: Float64Array;
}

/**
 * Aims an aperture at the sun: the incidence angle of each mount (D&B section 1.7, eq. 1.6.2 for fixed).
 * The longitudinal and transversal angles are those of ISO 9806, tan θL = s·l / s·n and
 * tan θT = s·t / s·n for sun s, normal n, long axis l and cross axis t. The long axis l is the tracking
 * axis of a one-axis mount; up the slope for a fixed mount, a vertical axis and two axes (north where a
 * fixed one lies flat and faces south or north); for two axes without limits the incidence is 0.
 *
 * @param latitude_deg tells which way the equator lies
 * @param options.groundCover width of the aperture over spacing of the rows; backtracking needs it
 * @param options.needsFocus no light in hours in which the mount stops at a limit short of the sun
 * @throws ModelError OUT_OF_RANGE where backtracking lacks its ground cover
 */
export function aim(
  sun: SunYear,
  mount: Mount,
  latitude_deg: number,
  options: { readonly groundCover?: number; readonly needsFocus?: boolean } = {},
): Aim {
  const series = () => new Float64Array(hoursPerYear);
  const result = {
    cosIncidence: series(),
    incidence_deg: series().fill(90),
    longitudinal_deg: series().fill(90),
    transversal_deg: series().fill(90),
    apertureTilt_deg: series(),
    trackingAngle_deg: series(),
  };
  const { groundCover, needsFocus = false } = options;
  const stands = placements(sun, mount, latitude_deg < 0 ? -1 : 1, groundCover);
  for (let hour = 0; hour < hoursPerYear; hour += 1) {
    if (sun.sunlitShare[hour] === 0) {
      result.apertureTilt_deg[hour] = stands.rest_deg(hour);
      continue;
    }
    const { normal, longAxis, tilt_deg, turn_deg, stopped } = stands.sunlit(hour);
    result.apertureTilt_deg[hour] = tilt_deg;
    result.trackingAngle_deg[hour] = turn_deg;
    if (stopped && needsFocus) continue;
    const cosine = Math.min(1, cosineTo(sun, hour, normal));
    if (!(cosine > 0)) continue;
    const along = cosineTo(sun, hour, longAxis);
    const across = Math.sqrt(Math.max(0, 1 - cosine * cosine - along * along));
    result.cosIncidence[hour] = cosine;
    result.incidence_deg[hour] = Math.atan2(Math.hypot(along, across), cosine) / radians;
    result.longitudinal_deg[hour] = Math.atan2(Math.abs(along), cosine) / radians;
    result.transversal_deg[hour] = Math.atan2(across, cosine) / radians;
  }
  return result;
}
