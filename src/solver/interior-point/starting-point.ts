import type { Work } from "./kernels/work.ts";
import type { Staircase } from "./staircase.ts";
import { stretches } from "./stretches.ts";
import type { System } from "./system.ts";
import type { Coefficient, Template } from "./template.ts";

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
  const starting = new Starting(stairs, work, sizes.v);
  stretches(stairs.blocks, (from, to) => starting.setBlocks(from, to));
}

/** The start block by block, in methods for the reason told in rows.ts. */
class Starting {
  private readonly live: Uint8Array;
  private readonly limit: Template["limit"];
  private readonly columns: number;
  private readonly maskOf: readonly number[];
  private readonly costPlace: readonly number[];
  private readonly mask: Uint8Array;
  private readonly masks: number;
  private readonly cost: Float64Array;
  private readonly costs: number;
  private readonly varying: Float64Array;
  private readonly varyings: number;
  private readonly constants: Float64Array;
  private readonly upperLimit: Int32Array;
  private readonly X: Float64Array;
  private readonly Z: Float64Array;
  private readonly sizes: Float64Array;
  private readonly pairs: number;
  private readonly multiplier: Float64Array;
  private readonly room: Float64Array;

  constructor(stairs: Staircase, { X, Z }: Work, sizes: Float64Array) {
    const { template, strides } = stairs;
    this.live = stairs.live;
    this.limit = template.limit;
    this.columns = template.columns;
    this.maskOf = template.mask;
    this.costPlace = template.cost;
    this.mask = stairs.mask;
    this.masks = strides.mask;
    this.cost = stairs.cost;
    this.costs = strides.cost;
    this.varying = stairs.varying;
    this.varyings = strides.varying;
    this.constants = stairs.constants;
    this.upperLimit = stairs.upperLimit;
    this.X = X;
    this.Z = Z;
    this.sizes = sizes;
    this.pairs = template.columns + template.limits;
    this.room = new Float64Array(template.limits);
    const weight = sizeWeights(stairs);
    this.multiplier = Float64Array.from(template.limit, ({ terms }) =>
      terms.reduce(
        (least, { size }) => Math.min(least, Math.max(stairs.sizeCost[size], 1e-3) / weight[size]),
        1,
      ),
    );
  }

  setBlocks(from: number, to: number): void {
    for (let t = from; t < to; t += 1) if (this.live[t] === 1) this.setBlock(t);
  }

  private setBlock(t: number): void {
    const n = this.columns;
    const q = this.limit.length;
    for (let j = 0; j < n; j += 1) if (this.isThere(t, j)) this.setColumn(t, j);
    for (let l = 0; l < q; l += 1) if (this.isThere(t, n + l)) this.setLimit(t, l);
    for (let l = 0; l < q; l += 1) if (this.isThere(t, n + l)) this.setSlack(t, l);
  }

  private setColumn(t: number, j: number): void {
    const o = t * this.pairs;
    this.X[o + j] = usualLocal;
    this.Z[o + j] = Math.max(this.costOf(t, j), 1);
  }

  /** The multiplier of a limit, and its column where the limit holds it low. */
  private setLimit(t: number, l: number): void {
    const { column, sign, rhs, terms } = this.limit[l];
    const o = t * this.pairs;
    let room = this.valueAt(rhs, t);
    for (const term of terms) room += this.valueAt(term.value, t) * this.sizes[term.size];
    this.room[l] = room;
    if (sign > 0) this.X[o + column] = Math.min(this.X[o + column], Math.max(room / 2, smallest));
    const isUpper = terms.length === 0 && this.upperLimit[column] === l;
    if (isUpper) this.X[o + column] = Math.min(this.X[o + column], room / 2);
    this.Z[o + this.columns + l] = isUpper ? Math.max(-this.costOf(t, column), 1) : this.multiplier[l];
  }

  private setSlack(t: number, l: number): void {
    const { column, sign } = this.limit[l];
    const o = t * this.pairs;
    const room = this.room[l];
    this.X[o + this.columns + l] = Math.max(
      room - sign * this.X[o + column],
      Math.min(smallest, room > 0 ? room / 2 : smallest),
    );
  }

  private isThere(t: number, pair: number): boolean {
    const at = this.maskOf[pair];
    return at < 0 || this.mask[t * this.masks + at] === 1;
  }

  private costOf(t: number, column: number): number {
    const at = this.costPlace[column];
    return at < 0 ? 0 : this.cost[t * this.costs + at];
  }

  private valueAt({ varies, at }: Coefficient, t: number): number {
    return varies ? this.varying[t * this.varyings + at] : this.constants[at];
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
