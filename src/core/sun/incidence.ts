import { radians } from "../units.ts";
import type { SunYear } from "./sun-year.ts";

/** A direction: east, north, up; length 1. */
export type UnitVector = readonly [east: number, north: number, up: number];

/** Cosine of the angle between the sun and a direction in one hour; negative when the sun is behind. */
export function cosineTo(sun: SunYear, hour: number, direction: UnitVector): number {
  return sun.east[hour]! * direction[0] + sun.north[hour]! * direction[1] + sun.up[hour]! * direction[2];
}

/**
 * Normal of a plane that leans by `tilt_deg` from flat toward `azimuth_deg` (clockwise from north). The
 * cosine to it equals D&B eq. 1.6.2, whose azimuth counts from south, west positive.
 */
export function planeNormal(tilt_deg: number, azimuth_deg: number): UnitVector {
  const tilt = tilt_deg * radians;
  const azimuth = azimuth_deg * radians;
  return [Math.sin(tilt) * Math.sin(azimuth), Math.sin(tilt) * Math.cos(azimuth), Math.cos(tilt)];
}
