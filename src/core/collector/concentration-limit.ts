import type { Optics } from "../study/schema/collector.ts";
import { radians } from "../units.ts";
import { sunHalfAngle_rad } from "./sun-shape.ts";

type Mirror = Pick<Extract<Optics, { by: "shape" }>, "shape" | "rimAngle_deg">;

/**
 * Largest concentration that the second law allows: 1/sin θs in one plane, 1/sin²θs in two, θs the half-angle
 * of the sun (Rabl, Solar Energy 18, 1976; D&B sec. 7.2).
 */
export function secondLawConcentration(shape: Mirror["shape"], halfAngle_rad = sunHalfAngle_rad): number {
  const inPlane = 1 / Math.sin(halfAngle_rad);
  return shape === "trough" ? inPlane : inPlane ** 2;
}

/**
 * Largest concentration at which a parabola of this rim angle φ still holds the sun's whole image on its
 * receiver: sin φ/(π·sin θs) for a tube, sin²2φ/(4·sin²θs) for a flat disc (Rabl 1985, D&B sec. 7.9 and 7.11,
 * from memory); beyond the rim angle at which it is greatest (90° and 45°) the greatest stands.
 */
export function rimConcentration(mirror: Mirror, halfAngle_rad = sunHalfAngle_rad): number {
  const rim = mirror.rimAngle_deg * radians;
  const inPlane = 1 / Math.sin(halfAngle_rad);
  return mirror.shape === "trough"
    ? (Math.sin(Math.min(rim, Math.PI / 2)) * inPlane) / Math.PI
    : (Math.sin(2 * Math.min(rim, Math.PI / 4)) * inPlane) ** 2 / 4;
}
