import { hoursPerYear } from "../series.ts";
import type { Mount } from "../study/schema/collector.ts";
import { radians } from "../units.ts";
import { cosineTo, planeNormal, type UnitVector } from "./incidence.ts";
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
  /** Lean of the aperture from flat; a tracker lies flat while the sun is down. */
  readonly apertureTilt_deg: Float64Array;
  /** Turn about a horizontal axis: north–south, west positive; east–west, toward the equator positive. */
  readonly trackingAngle_deg: Float64Array;
}

/**
 * Aims an aperture at the sun: the incidence angle of each mount (D&B section 1.7, eq. 1.6.2 for fixed).
 * The longitudinal and transversal angles are those of ISO 9806, tan θL = s·l / s·n and
 * tan θT = s·t / s·n for sun s, normal n, long axis l and cross axis t. The long axis l is the tracking
 * axis of a horizontal-axis mount; up the slope for a fixed mount and a vertical axis (north where a
 * fixed one lies flat and faces south or north); for two axes the incidence is 0.
 *
 * @param latitude_deg tells which way the equator lies
 */
export function aim(sun: SunYear, mount: Mount, latitude_deg: number): Aim {
  const series = () => new Float64Array(hoursPerYear);
  const result = {
    cosIncidence: series(),
    incidence_deg: series().fill(90),
    longitudinal_deg: series().fill(90),
    transversal_deg: series().fill(90),
    apertureTilt_deg: series(),
    trackingAngle_deg: series(),
  };
  const place = placement(sun, mount, latitude_deg < 0 ? -1 : 1);
  for (let hour = 0; hour < hoursPerYear; hour += 1) {
    if (sun.sunlitShare[hour] === 0) {
      result.apertureTilt_deg[hour] = "tilt_deg" in mount ? mount.tilt_deg : 0;
      continue;
    }
    const { normal, longAxis, tilt_deg, turn_deg } = place(hour);
    result.apertureTilt_deg[hour] = tilt_deg;
    result.trackingAngle_deg[hour] = turn_deg;
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

interface Placement {
  readonly normal: UnitVector;
  readonly longAxis: UnitVector;
  readonly tilt_deg: number;
  readonly turn_deg: number;
}

/** How the mount stands in a sunlit hour. */
function placement(sun: SunYear, mount: Mount, northern: 1 | -1): (hour: number) => Placement {
  switch (mount.type) {
    case "fixed": {
      const stands = leaning(mount.tilt_deg, mount.azimuth_deg);
      return () => stands;
    }
    case "vertical-axis":
      return (hour) => leaning(mount.tilt_deg, sun.azimuth_deg[hour]!);
    case "two-axes":
      return (hour) => leaning(sun.zenith_deg[hour]!, sun.azimuth_deg[hour]!);
    case "axis-north-south":
      return (hour) => {
        const turn = Math.atan2(-sun.east[hour]!, sun.up[hour]!);
        return {
          normal: [-Math.sin(turn), 0, Math.cos(turn)],
          longAxis: [0, 1, 0],
          tilt_deg: Math.abs(turn) / radians,
          turn_deg: turn / radians,
        };
      };
    case "axis-east-west":
      return (hour) => {
        const turn = Math.atan2(-sun.north[hour]! * northern, sun.up[hour]!);
        return {
          normal: [0, -northern * Math.sin(turn), Math.cos(turn)],
          longAxis: [1, 0, 0],
          tilt_deg: Math.abs(turn) / radians,
          turn_deg: turn / radians,
        };
      };
  }
}

function leaning(tilt_deg: number, azimuth_deg: number): Placement {
  const normal = planeNormal(tilt_deg, azimuth_deg);
  const longAxis = planeNormal(90 - tilt_deg, azimuth_deg + 180);
  return { normal, longAxis, tilt_deg, turn_deg: 0 };
}
