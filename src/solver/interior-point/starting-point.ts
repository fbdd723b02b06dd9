import type { Staircase } from "./staircase.ts";
import type { System } from "./system.ts";
import type { Coefficient } from "./template.ts";

/** Scaled size of a quantity of one block, and of a plant that serves many blocks. */
const usualLocal = 1;
const usualShared = 10;
const smallest = 0.01;

/**
 * Puts a system at a point well inside the bounds at the natural size of each quantity. Limits start
 * satisfied with room to spare: the plant is large, and a column that its limit holds low starts at
 * half of that. Reduced costs start at the cost's own size; the multiplier of a limit is the smaller
 * the more limits share its size column, since they add up in that column's dual row.
 */
export function startAt({ stairs, work, border }: System): void {
  const { sizes, slacks } = border;
  start(sizes, stairs.sizeCost, stairs.sizeWidth, usualShared);
  start(slacks, new Float64Array(stairs.longSlack.length), stairs.longSlack, usualLocal);
  const { template, blocks, strides } = stairs;
  const { columns: n, limits: q, limit } = template;
  const { X, Z } = work;
  const weight = sizeWeights(stairs);
  const isThere = (t: number, pair: number) =>
    stairs.live[t] === 1 &&
    (template.mask[pair] < 0 || stairs.mask[t * strides.mask + template.mask[pair]] === 1);
  const multiplier = limit.map(({ terms }) =>
    terms.reduce(
      (least, { size }) => Math.min(least, Math.max(stairs.sizeCost[size], 1e-3) / weight[size]),
      1,
    ),
  );
  const room = new Float64Array(q);
  for (let t = 0; t < blocks; t += 1) {
    const o = t * (n + q);
    for (let j = 0; j < n; j += 1) {
      if (!isThere(t, j)) continue;
      const at = template.cost[j];
      X[o + j] = usualLocal;
      Z[o + j] = Math.max(at < 0 ? 0 : stairs.cost[t * strides.cost + at], 1);
    }
    for (let l = 0; l < q; l += 1) {
      if (!isThere(t, n + l)) continue;
      const { column, sign, rhs, terms } = limit[l];
      room[l] = valueAt(stairs, rhs, t);
      for (const { size, value } of terms) {
        room[l] += valueAt(stairs, value, t) * sizes.v[size];
      }
      if (sign > 0) X[o + column] = Math.min(X[o + column], Math.max(room[l] / 2, smallest));
      if (terms.length === 0 && stairs.upperLimit[column] === l) {
        X[o + column] = Math.min(X[o + column], room[l] / 2);
        const at = template.cost[column];
        const cost = at < 0 ? 0 : stairs.cost[t * strides.cost + at];
        Z[o + n + l] = Math.max(-cost, 1);
      } else Z[o + n + l] = multiplier[l];
    }
    for (let l = 0; l < q; l += 1) {
      if (!isThere(t, n + l)) continue;
      const { column, sign } = limit[l];
      X[o + n + l] = Math.max(
        room[l] - sign * X[o + column],
        Math.min(smallest, room[l] > 0 ? room[l] / 2 : smallest),
      );
    }
  }
}

function start(b: System["border"]["sizes"], cost: Float64Array, width: Float64Array, usual: number): void {
  for (let j = 0; j < b.v.length; j += 1) {
    const isBounded = width[j] < Number.POSITIVE_INFINITY && width[j] > 0;
    b.v[j] = isBounded ? Math.min(usual, width[j] / 2) : usual;
    b.gap[j] = isBounded ? width[j] - b.v[j] : Number.POSITIVE_INFINITY;
    b.lower[j] = Math.max(cost[j], 1);
    b.upper[j] = isBounded ? Math.max(-cost[j], 1) : 0;
  }
}

function valueAt({ varying, constants, strides }: Staircase, { varies, at }: Coefficient, t: number): number {
  return varies ? varying[t * strides.varying + at] : constants[at];
}

/** Σ of the coefficients by which limits count on each size. */
function sizeWeights({
  template,
  sizes,
  constants,
  varying,
  strides,
  live,
  blocks,
}: Staircase): Float64Array {
  const weight = new Float64Array(sizes).fill(1e-300);
  let count = 0;
  for (let t = 0; t < blocks; t += 1) count += live[t];
  for (const { terms } of template.limit) {
    for (const { size, value } of terms) {
      if (!value.varies) weight[size] += count * Math.abs(constants[value.at]);
      else
        for (let i = value.at; i < varying.length; i += strides.varying) weight[size] += Math.abs(varying[i]);
    }
  }
  return weight;
}
