import { radians } from "../units.ts";
import { planeNormal, type UnitVector } from "./incidence.ts";

/** The three directions of a tracking axis. */
export interface AxisFrame {
  /** Normal of the aperture where it is not turned. */
  readonly rest: UnitVector;
  /** Horizontal, across the axis: the way of a positive turn. */
  readonly across: UnitVector;
  readonly axis: UnitVector;
  readonly axisTilt_deg: number;
}

/** An axis that falls by `tilt_deg` toward `azimuth_deg`. */
export function axisFrame(azimuth_deg: number, tilt_deg: number): AxisFrame {
  const azimuth = azimuth_deg * radians;
  return {
    rest: planeNormal(tilt_deg, azimuth_deg),
    across: [Math.cos(azimuth), -Math.sin(azimuth), 0],
    axis: planeNormal(90 + tilt_deg, azimuth_deg),
    axisTilt_deg: tilt_deg,
  };
}

/** Horizontal north–south axis: a positive turn faces west. */
export const northSouth: AxisFrame = {
  rest: [0, 0, 1],
  across: [-1, 0, 0],
  axis: [0, 1, 0],
  axisTilt_deg: 0,
};

/** Horizontal east–west axis: a positive turn faces the equator. */
export const eastWest = (northern: 1 | -1): AxisFrame => ({
  rest: [0, 0, 1],
  across: [0, -northern, 0],
  axis: [1, 0, 0],
  axisTilt_deg: 0,
});

/**
 * Turn that keeps parallel rows on flat land from shading each other, from the turn at which they would face
 * the sun: ρ − sign(ρ)·acos(cos ρ / g) where cos ρ < g, else ρ itself. Anderson & Mikofski, Slope-aware
 * backtracking for single-axis trackers, NREL/TP-5K00-76626 (2020), without slope across the axis.
 *
 * @param facing turn that faces the sun, rad
 * @param groundCover width of the aperture over spacing of the rows
 */
export function backtracked(facing: number, groundCover: number): number {
  const cosine = Math.cos(facing);
  if (!(cosine < groundCover)) return facing;
  return facing - Math.sign(facing) * Math.acos(Math.max(0, cosine) / groundCover);
}
