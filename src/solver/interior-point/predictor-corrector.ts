import type { Bounded } from "./border-point.ts";
import { startAt } from "./starting-point.ts";
import type { Distance, Proximal, System } from "./system.ts";

export interface Outcome {
  readonly converged: boolean;
  readonly stopped: boolean;
  readonly distance: Distance;
  readonly iterations: number;
}

export interface IterationOptions {
  readonly onIteration?: (iteration: number, distance: Distance) => void;
  readonly shouldStop?: () => boolean;
}

/** Relative gap and dual infeasibility at which a point counts as optimal. */
const tolerance = 1e-8;
/** What is built and run should hold better than its price is known; so many steps are spent on it. */
const primalTolerance = 1e-9;
const mostPolishing = 3;
const mostIterations = 300;
/** So many steps without a tenth of progress mean that there will be none. */
const patience = 100;
/** Smaller and larger weights each failed on some year (docs/methods/interior-point.md). */
const usual: Proximal = { primal: 1e-9, dual: 1e-6 };
/** Near the end the primal weight is smaller: it is what keeps the dual residual up. */
const last: Proximal = { primal: 1e-10, dual: 1e-6 };
const nearEnd = 1e-7;
/** Factorisations tried at one point, with proximal weights ten times larger each time. */
const mostTries = 4;
/** Relative gap below which residuals are compared with the products in them. */
const nearOptimum = 1e-6;
/**
 * Where the products vanish before the residuals, quantities at zero can no longer grow: all are then
 * lifted off their bounds, a few times at most.
 */
const vanished = 1e-18;
const lifted = 1e-7;
const mostLifts = 5;
/** Products are not aimed below this share of the primal residual, which would else be left behind. */
const residualShare = 0.01;
/** Mehrotra's is 3; 4 took a tenth fewer steps on most of our years. */
const centringPower = 4;
/** Share of the way to the boundary that a step takes at least. */
const nearBoundary = 0.995;

/** Mehrotra's predictor–corrector method (1992) on the proximally regularised program. */
export function predictorCorrector(system: System, options: IterationOptions = {}): Outcome {
  startAt(system);
  let lifts = 0;
  let closeFor = 0;
  let best = Number.POSITIVE_INFINITY;
  let bestAt = 0;
  let primal = 0;
  let dual = 0;
  let relative = false;
  for (let iteration = 0; ; iteration += 1) {
    let distance = system.advance(primal, dual, relative);
    if (!relative && distance.relativeGap < nearOptimum) {
      relative = true;
      distance = system.advance(0, 0, true);
    }
    options.onIteration?.(iteration, distance);
    const { primalInfeasibility, dualInfeasibility, relativeGap, mu } = distance;
    const isClose =
      relativeGap <= tolerance && primalInfeasibility <= tolerance && dualInfeasibility <= tolerance;
    if (isClose) closeFor += 1;
    const converged = isClose && (primalInfeasibility <= primalTolerance || closeFor > mostPolishing);
    const stopped = !converged && options.shouldStop?.() === true;
    const worst = Math.max(primalInfeasibility, dualInfeasibility, relativeGap);
    if (worst < 0.9 * best) {
      best = worst;
      bestAt = iteration;
    }
    const isLost =
      !Number.isFinite(worst + mu) || iteration >= mostIterations || iteration > bestAt + patience;
    const outcome = { converged, stopped, distance, iterations: iteration };
    if (converged || stopped || isLost) return outcome;
    if (mu < vanished && lifts < mostLifts) {
      lift(system, lifted);
      lifts += 1;
      primal = 0;
      dual = 0;
      continue;
    }
    if (!factor(system, mu)) return outcome;
    const reach = system.direction(0, false);
    const primalReach = Math.min(1, reach.primal);
    const dualReach = Math.min(1, reach.dual);
    const centring = (reach.productAfter(primalReach, dualReach) / mu) ** centringPower;
    const target = Math.max(centring * mu, residualShare * primalInfeasibility);
    const room = system.direction(target, true);
    const share = Math.max(nearBoundary, 1 - mu);
    primal = Math.min(1, share * room.primal);
    dual = Math.min(1, share * room.dual);
  }
}

function factor(system: System, mu: number): boolean {
  let proximal = mu < nearEnd ? last : usual;
  for (let tries = 0; tries < mostTries; tries += 1) {
    if (system.factor(proximal)) return true;
    proximal = { primal: proximal.primal * 10, dual: proximal.dual * 10 };
  }
  return false;
}

/** Raises every value and multiplier of the point to at least `least`. */
function lift({ work, border }: System, least: number): void {
  const { X, Z, DX, DZ } = work;
  DX.fill(0);
  DZ.fill(0);
  for (let p = 0; p < X.length; p += 1) {
    if (Z[p] === 0) continue;
    X[p] = Math.max(X[p], least);
    Z[p] = Math.max(Z[p], least);
  }
  for (const bounded of [border.sizes, border.slacks]) liftBounded(bounded, least);
}

function liftBounded({ v, gap, lower, upper }: Bounded, least: number): void {
  for (let j = 0; j < v.length; j += 1) {
    lower[j] = Math.max(lower[j], least);
    if (gap[j] === Number.POSITIVE_INFINITY) {
      v[j] = Math.max(v[j], least);
      continue;
    }
    upper[j] = Math.max(upper[j], least);
    const width = v[j] + gap[j];
    const room = Math.min(least, width / 2);
    v[j] = Math.min(Math.max(v[j], room), width - room);
    gap[j] = width - v[j];
  }
}
