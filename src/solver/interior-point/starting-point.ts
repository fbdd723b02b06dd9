import type { BlockProgram } from "./block-program.ts";
import type { Iterate } from "./iterate.ts";

/** Scaled size of a quantity of one block, and of a plant that serves many blocks. */
const usualLocal = 1;
const usualShared = 10;
const smallest = 0.01;

/**
 * A point well inside the bounds at the natural size of each quantity. Limits start satisfied with
 * room to spare: the plant is large, and a column that its limit holds low starts at half of that.
 * Reduced costs start at the cost's own size; the multiplier of a limit is the smaller the more
 * limits share its size column, since they add up in that column's dual row.
 */
export function startingPoint(p: BlockProgram): Iterate {
  const { variables, upper, cost } = p;
  const v = new Float64Array(variables);
  const w = new Float64Array(variables).fill(Number.POSITIVE_INFINITY);
  const zl = new Float64Array(variables);
  const zu = new Float64Array(variables);
  const y = new Float64Array(p.rows);
  const isBounded = (j: number) => upper[j] < Number.POSITIVE_INFINITY;
  for (let j = 0; j < variables; j += 1) {
    const usual = j >= p.locals && j < p.columns ? usualShared : usualLocal;
    v[j] = isBounded(j) ? Math.min(usual, upper[j] / 2) : usual;
    zl[j] = Math.max(cost[j], 1);
    zu[j] = isBounded(j) ? Math.max(-cost[j], 1) : 0;
  }
  openLimits(p, v);
  for (let j = 0; j < variables; j += 1) if (isBounded(j)) w[j] = upper[j] - v[j];

  const count = new Float64Array(p.shared);
  for (let q = 0; q < p.limitShared.length; q += 1) count[p.limitShared[q]] += Math.abs(p.limitValues[q]);
  const first = p.interior + p.border;
  for (let i = 0; i < p.limits; i += 1) {
    let multiplier = 1;
    for (let q = p.limitStarts[i]; q < p.limitStarts[i + 1]; q += 1) {
      const z = p.limitShared[q];
      multiplier = Math.min(multiplier, Math.max(cost[p.locals + z], 1e-3) / count[z]);
    }
    const slack = p.slack[first + i];
    zl[slack] = multiplier;
    if (isBounded(slack)) zu[slack] = multiplier;
    y[first + i] = -multiplier;
  }
  return { v, w, zl, zu, y };
}

function openLimits(p: BlockProgram, v: Float64Array): void {
  const first = p.interior + p.border;
  for (let i = 0; i < p.limits; i += 1) {
    let room = p.rhs[first + i];
    for (let q = p.limitStarts[i]; q < p.limitStarts[i + 1]; q += 1) {
      room -= p.limitValues[q] * v[p.locals + p.limitShared[q]];
    }
    const j = p.limitLocal[i];
    const slope = p.limitCoefficient[i];
    if (slope > 0) v[j] = Math.min(v[j], Math.max(room / (2 * slope), smallest));
    const slack = p.slack[first + i];
    v[slack] = Math.min(Math.max(room - slope * v[j], smallest), p.upper[slack] / 2);
  }
}
