import type { BlockProgram } from "./block-program.ts";
import type { Iterate } from "./iterate.ts";
import type { Direction } from "./newton.ts";

/** Weights tried, evenly from the least to 1. */
const trials = 5;

/**
 * Replaces the combined direction by affine + ω·(combined − affine), with the weights ω of the primal
 * and the dual side that each allow the longest step (Colombo and Gondzio 2008): where the
 * predictor is short, the second-order term belongs to a step that is never taken.
 *
 * @param least smallest weight, the product of the predictor's step lengths
 */
export function weightCorrector(
  p: BlockProgram,
  point: Iterate,
  affine: Direction,
  combined: Direction,
  least: number,
): void {
  const weights = Float64Array.from({ length: trials }, (_, k) => least + ((1 - least) * k) / (trials - 1));
  const primal = new Float64Array(trials).fill(1);
  const dual = new Float64Array(trials).fill(1);
  reach(p.variables, point.v, affine.v, combined.v, 1, weights, primal);
  reach(p.variables, point.w, affine.v, combined.v, -1, weights, primal);
  reach(p.variables, point.zl, affine.zl, combined.zl, 1, weights, dual);
  reach(p.variables, point.zu, affine.zu, combined.zu, 1, weights, dual);
  const primalWeight = weights[longest(primal)];
  const dualWeight = weights[longest(dual)];
  mix(affine.v, combined.v, primalWeight);
  mix(affine.zl, combined.zl, dualWeight);
  mix(affine.zu, combined.zu, dualWeight);
  mix(affine.y, combined.y, dualWeight);
}

/** Shortens each trial's step so that value + step · sign · direction stays positive. */
function reach(
  count: number,
  value: Float64Array,
  affine: Float64Array,
  combined: Float64Array,
  sign: number,
  weights: Float64Array,
  steps: Float64Array,
): void {
  for (let j = 0; j < count; j += 1) {
    const a = sign * affine[j];
    const c = sign * combined[j];
    if (a >= 0 && c >= 0) continue;
    const room = value[j];
    for (let k = 0; k < trials; k += 1) {
      const change = a + weights[k] * (c - a);
      if (room + steps[k] * change < 0) steps[k] = -room / change;
    }
  }
}

/** The last of the largest, so that the full corrector wins a tie. */
function longest(steps: Float64Array): number {
  let best = 0;
  for (let k = 1; k < trials; k += 1) if (steps[k] >= steps[best]) best = k;
  return best;
}

function mix(affine: Float64Array, combined: Float64Array, weight: number): void {
  if (weight === 1) return;
  for (let j = 0; j < combined.length; j += 1) combined[j] = affine[j] + weight * (combined[j] - affine[j]);
}
