import { gaussLegendre } from "./quadrature.ts";

export type SunShape = "disc" | "limb-darkened" | "hazy";

/** Half-angle of the sun's disc at mean distance, rad: 4.65 mrad (Buie, Monger & Dey 2003). */
export const sunHalfAngle_rad = 4.65 / 1000;

/** Half-angle at which the light round the sun still counts as beam, rad (43.6 mrad, the same). */
const aureole_rad = 43.6 / 1000;

/** An evenly bright disc and its share of the beam. */
export interface Disc {
  readonly halfAngle_rad: number;
  readonly share: number;
}

/**
 * The sun as a sum of evenly bright discs, which any brightness that falls outwards can be written as: a disc
 * of radius a holds −B′(a)·π·a². Shares add to 1.
 *
 * - disc: one of 4.65 mrad.
 * - limb-darkened: B = cos(0.326θ)/cos(0.308θ), θ in mrad, within the disc: Buie, Monger & Dey, Sunshape
 *   distributions for terrestrial solar simulations, Solar Energy 74 (2003) 113–122 (from memory).
 * - hazy: the same with an aureole e^κ·θ^γ to 43.6 mrad, κ = 0.9·ln(13.5χ)·χ^−0.3 and
 *   γ = 2.2·ln(0.52χ)·χ^0.43 − 0.1 with circumsolar ratio χ = 0.1.
 */
export function sunDiscs(shape: SunShape): readonly Disc[] {
  return discs[shape];
}

/** Brightness over that of the centre at an angle from it, mrad; 0 beyond what counts as beam. */
export function brightness(shape: SunShape, angle_mrad: number): number {
  if (angle_mrad <= 1000 * sunHalfAngle_rad)
    return shape === "disc" ? 1 : Math.cos(0.326 * angle_mrad) / Math.cos(0.308 * angle_mrad);
  if (shape !== "hazy" || angle_mrad > 1000 * aureole_rad) return 0;
  return Math.exp(aureole.kappa) * angle_mrad ** aureole.gamma;
}

const ratio = 0.1;
const aureole = {
  kappa: 0.9 * Math.log(13.5 * ratio) * ratio ** -0.3,
  gamma: 2.2 * Math.log(0.52 * ratio) * ratio ** 0.43 - 0.1,
};

const discs: Readonly<Record<SunShape, readonly Disc[]>> = {
  disc: [{ halfAngle_rad: sunHalfAngle_rad, share: 1 }],
  "limb-darkened": discsOf("limb-darkened"),
  hazy: discsOf("hazy"),
};

function discsOf(shape: SunShape): Disc[] {
  const edge = 1000 * sunHalfAngle_rad;
  const rim = 1000 * aureole_rad;
  const raw: { angle: number; weight: number }[] = [];
  const fall = (from: number, to: number, nodes: number) => {
    const rule = gaussLegendre(nodes);
    // Even steps in the logarithm suit the aureole's power law.
    const inLog = from > 0;
    const [low, high] = inLog ? [Math.log(from), Math.log(to)] : [from, to];
    for (let i = 0; i < nodes; i += 1) {
      const at = (low + high) / 2 + ((high - low) / 2) * rule.nodes[i]!;
      const angle = inLog ? Math.exp(at) : at;
      const step = 1e-4 * angle;
      const slope = (brightness(shape, angle - step) - brightness(shape, angle + step)) / (2 * step);
      const width = (rule.weights[i]! * (high - low) * (inLog ? angle : 1)) / 2;
      raw.push({ angle, weight: width * slope * angle ** 2 });
    }
  };
  const drop = (at: number) => {
    const slip = 1e-9 * at;
    const step = brightness(shape, at) - brightness(shape, at + slip);
    raw.push({ angle: at, weight: step * at ** 2 });
  };
  fall(0, 0.7 * edge, 2);
  fall(0.7 * edge, edge * 0.9998, 4);
  drop(edge);
  if (shape === "hazy") {
    fall(edge * 1.0002, rim * 0.9998, 6);
    drop(rim);
  }
  const all = raw.reduce((sum, { weight }) => sum + weight, 0);
  return raw.map(({ angle, weight }) => ({ halfAngle_rad: angle / 1000, share: weight / all }));
}
