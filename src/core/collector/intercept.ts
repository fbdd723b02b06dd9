import type { Optics } from "../study/schema/collector.ts";
import { radians } from "../units.ts";
import { blurredUniform } from "./blurred-uniform.ts";
import { gaussLegendre, integral } from "./quadrature.ts";
import { sunDiscs } from "./sun-shape.ts";

export type ShapeOptics = Extract<Optics, { by: "shape" }>;
type Concentrator = Pick<
  ShapeOptics,
  | "shape"
  | "concentration"
  | "rimAngle_deg"
  | "slopeError_mrad"
  | "specularity_mrad"
  | "trackingError_mrad"
  | "sunShape"
>;

/**
 * Intercept factor γ: share of the light reflected by a parabolic mirror that meets its receiver, beam along
 * the axis on average. Errors are normal and independent, each the standard deviation in one direction; a
 * slope error doubles in the reflected ray (Rabl, Active Solar Collectors and Their Applications, 1985, ch. 8).
 *
 * - Trough with a tube on the focal line: a ray misses the line by p·sin ε, p = 2f/(1 + cos φ), and meets the
 *   tube within |ε| ≤ asin(r/p). σ² = 4·slope² + specularity² + tracking², all across the axis; slope errors
 *   along the axis move rays along the tube and do not count.
 * - Dish with a flat disc or an opening in the focal plane: rays at φ meet the disc within
 *   tan ε = ±y·cos φ/(p ± y·sin φ) in the plane of the axis, p·tan ε across it, y² + across² ≤ R². Slope
 *   errors count in both directions, across with 2·slope·cos(φ/2), the ray meeting the mirror at φ/2. From
 *   φ = 90° on a disc that faces the mirror gets nothing.
 *
 * Each error's normal distribution is joined with the sun's discs in closed form along one direction and by
 * Gauss quadrature along the others; held against traced rays to a few tenths of a per cent.
 *
 * @returns 0 to 1
 */
export function interceptFactor(concentrator: Concentrator): number {
  return concentrator.shape === "trough" ? ofTrough(concentrator) : ofDish(concentrator);
}

const overAperture = gaussLegendre(20);
const overError = gaussLegendre(16);
/** Chords across an evenly bright disc: Gauss–Chebyshev of the second kind, the half on one side. */
const chords = Array.from({ length: 5 }, (_, i) => {
  const angle = ((i + 1) * Math.PI) / 11;
  return { across: Math.cos(angle), half: Math.sin(angle), share: (4 / 11) * Math.sin(angle) ** 2 };
});

/** Distances in focal lengths. */
function ofTrough(c: Concentrator): number {
  const halfWidth = 2 * Math.tan((c.rimAngle_deg * radians) / 2);
  const radius = halfWidth / (Math.PI * c.concentration);
  const sigma = Math.hypot(2 * c.slopeError_mrad, c.specularity_mrad, c.trackingError_mrad) / 1000;
  const caught = integral(overAperture, 0, halfWidth, (x) => {
    const sine = radius / (1 + (x * x) / 4);
    const bound = sine >= 1 ? Math.PI : Math.asin(sine);
    let share = 0;
    for (const disc of sunDiscs(c.sunShape)) {
      for (const chord of chords) {
        const half = chord.half * disc.halfAngle_rad;
        share += disc.share * chord.share * blurredUniform(-bound, bound, half, sigma);
      }
    }
    return share;
  });
  return Math.min(1, caught / halfWidth);
}

function ofDish(c: Concentrator): number {
  const aperture = 2 * Math.tan((c.rimAngle_deg * radians) / 2);
  const radius = aperture / Math.sqrt(c.concentration);
  // At φ = 90° the mirror lies in the focal plane, two focal lengths from the axis.
  const facing = Math.min(aperture, 2);
  const others = Math.hypot(c.specularity_mrad, c.trackingError_mrad) / 1000;
  const slope = (2 * c.slopeError_mrad) / 1000;
  const discs = sunDiscs(c.sunShape);
  const caught = integral(overAperture, 0, facing, (x) => {
    const angle = 2 * Math.atan(x / 2);
    const ring: Ring = {
      distance: 1 + (x * x) / 4,
      cosine: Math.cos(angle),
      sine: Math.sin(angle),
      radius,
      along: Math.hypot(slope, others),
      across: Math.hypot(slope * Math.cos(angle / 2), others),
    };
    let share = 0;
    for (const disc of discs) {
      for (const chord of chords) {
        const { halfAngle_rad } = disc;
        share +=
          disc.share * chord.share * meets(ring, chord.across * halfAngle_rad, chord.half * halfAngle_rad);
      }
    }
    return 2 * x * share;
  });
  return Math.min(1, caught / aperture ** 2);
}

interface Ring {
  readonly distance: number;
  readonly cosine: number;
  readonly sine: number;
  readonly radius: number;
  /** Standard deviation in the plane of the axis, rad. */
  readonly along: number;
  /** Across that plane, rad. */
  readonly across: number;
}

/** Share of one chord of the sun that meets the disc from one ring of the mirror. */
function meets(ring: Ring, chordAt: number, chordHalf: number): number {
  const { distance, radius, across: sigma } = ring;
  const limit = Math.atan(radius / distance);
  if (sigma < 1e-9) return Math.abs(chordAt) < limit ? alongPlane(ring, chordAt, chordHalf) : 0;
  const from = Math.max(chordAt - 5 * sigma, -limit);
  const to = Math.min(chordAt + 5 * sigma, limit);
  if (!(to > from)) return 0;
  return integral(overError, from, to, (angle) => {
    const z = (angle - chordAt) / sigma;
    return ((Math.exp((-z * z) / 2) * 0.3989422804014327) / sigma) * alongPlane(ring, angle, chordHalf);
  });
}

function alongPlane(ring: Ring, across: number, chordHalf: number): number {
  const { distance, cosine, sine, radius } = ring;
  const off = distance * Math.tan(across);
  const y = Math.sqrt(Math.max(0, radius * radius - off * off));
  const high = Math.atan2(y * cosine, distance + y * sine);
  const low = -Math.atan2(y * cosine, distance - y * sine);
  return blurredUniform(low, high, chordHalf, ring.along);
}
