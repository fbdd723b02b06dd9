import type { BlockProgram } from "./block-program.ts";
import { type Distance, type Iterate, lift, Meter } from "./iterate.ts";
import { emptyDirection, longestSteps, move, Newton, type Proximal, productAfter } from "./newton.ts";
import { ReducedSystem } from "./reduced-system.ts";
import { startingPoint } from "./starting-point.ts";
import { weightCorrector } from "./weight-corrector.ts";

export interface Outcome {
  readonly converged: boolean;
  readonly stopped: boolean;
  readonly point: Iterate;
  readonly distance: Distance;
  readonly iterations: number;
}

export interface IterationOptions {
  readonly onIteration?: (iteration: number, distance: Distance, point: Iterate) => void;
  readonly shouldStop?: () => boolean;
}

/** Relative gap and infeasibilities at which a point counts as optimal. */
const tolerance = 1e-8;
const mostIterations = 300;
/** Smaller and larger weights each failed on some year (docs/methods/interior-point.md). */
const usual: Proximal = { primal: 1e-9, dual: 1e-6 };
/** Factorisations tried at one point, with proximal weights ten times larger each time. */
const mostTries = 4;
/**
 * Where the products vanish before the residuals, quantities at zero can no longer grow: all are then
 * lifted off their bounds, a few times at most.
 */
const vanished = 1e-18;
const lifted = 1e-7;
const mostLifts = 5;
/** Products are not aimed below this share of the primal residual, which would else be left behind. */
const residualShare = 0.01;
/** Share of the way to the boundary that a step takes at least. */
const nearBoundary = 0.995;

/**
 * Mehrotra's predictor–corrector method (1992), its corrector weighted after Colombo and Gondzio
 * (2008), on the proximally regularised program.
 */
export function predictorCorrector(p: BlockProgram, options: IterationOptions = {}): Outcome {
  const newton = new Newton(p, new ReducedSystem(p));
  const meter = new Meter(p);
  const point = startingPoint(p);
  const affine = emptyDirection(p);
  const combined = emptyDirection(p);
  let lifts = 0;
  for (let iteration = 0; ; iteration += 1) {
    const distance = meter.measure(point);
    options.onIteration?.(iteration, distance, point);
    const { primalInfeasibility, dualInfeasibility, relativeGap, mu } = distance;
    const converged =
      relativeGap <= tolerance && primalInfeasibility <= tolerance && dualInfeasibility <= tolerance;
    const stopped = !converged && options.shouldStop?.() === true;
    const lost =
      !Number.isFinite(primalInfeasibility + dualInfeasibility + mu) || iteration >= mostIterations;
    const outcome = { converged, stopped, point, distance, iterations: iteration };
    if (converged || stopped || lost || !factor(newton, point)) return outcome;

    if (mu < vanished && lifts < mostLifts) {
      lift(p, point, lifted);
      lifts += 1;
      continue;
    }
    newton.direction(point, distance, 0, null, affine);
    const reach = longestSteps(p, point, affine, 1);
    const centring = (productAfter(p, point, affine, reach) / mu) ** 3;
    const target = Math.max(centring * mu, residualShare * primalInfeasibility);
    newton.direction(point, distance, target, affine, combined);
    weightCorrector(p, point, affine, combined, reach.primal * reach.dual);
    const room = longestSteps(p, point, combined, Number.POSITIVE_INFINITY);
    const share = Math.max(nearBoundary, 1 - mu);
    move(p, point, combined, {
      primal: Math.min(1, share * room.primal),
      dual: Math.min(1, share * room.dual),
    });
  }
}

function factor(newton: Newton, point: Iterate): boolean {
  let proximal = usual;
  for (let tries = 0; tries < mostTries; tries += 1) {
    if (newton.factor(point, proximal)) return true;
    proximal = { primal: proximal.primal * 10, dual: proximal.dual * 10 };
  }
  return false;
}
