import type { BlockProgram } from "./block-program.ts";
import type { Distance, Iterate } from "./iterate.ts";
import type { ReducedSystem } from "./reduced-system.ts";

export interface Direction {
  readonly v: Float64Array;
  readonly zl: Float64Array;
  readonly zu: Float64Array;
  readonly y: Float64Array;
}

/** Weights of the proximal terms on the primal and the dual side, in scaled units. */
export interface Proximal {
  readonly primal: number;
  readonly dual: number;
}

/**
 * Where a value is larger than this the proximal weight is smaller in proportion: a price of unmet
 * heat, a thousand times that of fuel, would else be reached in a thousand steps.
 */
const usualSize = 10;

/** Newton directions at one point: factored once, solved for each right-hand side. */
export class Newton {
  private readonly p: BlockProgram;
  private readonly system: ReducedSystem;
  private readonly h: Float64Array;
  private readonly delta: Float64Array;
  private readonly columnSide: Float64Array;
  private readonly rowSide: Float64Array;
  private readonly slackSide: Float64Array;
  private readonly wantLower: Float64Array;
  private readonly wantUpper: Float64Array;

  constructor(p: BlockProgram, system: ReducedSystem) {
    this.p = p;
    this.system = system;
    this.h = new Float64Array(p.variables);
    this.delta = new Float64Array(p.rows);
    this.columnSide = new Float64Array(p.columns);
    this.rowSide = new Float64Array(p.rows);
    this.slackSide = new Float64Array(p.rows);
    this.wantLower = new Float64Array(p.variables);
    this.wantUpper = new Float64Array(p.variables);
  }

  /** @returns false where the factorisation broke down */
  factor({ v, w, zl, zu, y }: Iterate, proximal: Proximal): boolean {
    const { p, h, delta } = this;
    for (let j = 0; j < p.variables; j += 1) {
      h[j] = zl[j] / v[j] + proximal.primal / Math.max(1, v[j] / usualSize);
      if (p.upper[j] < Number.POSITIVE_INFINITY) h[j] += zu[j] / w[j];
    }
    for (let i = 0; i < p.rows; i += 1) {
      delta[i] =
        proximal.dual / Math.max(1, Math.abs(y[i]) / usualSize) + (p.slack[i] < 0 ? 0 : 1 / h[p.slack[i]]);
    }
    return this.system.factor(h, delta);
  }

  /**
   * The step that would bring v·zl to `target` − secondLower and w·zu to `target` − secondUpper and
   * both residuals to what the proximal terms leave.
   */
  direction(
    point: Iterate,
    distance: Distance,
    target: number,
    second: Direction | null,
    out: Direction,
  ): void {
    const { p, h, columnSide, rowSide, slackSide, wantLower, wantUpper } = this;
    const { v, w, zl, zu } = point;
    const { variables, columns, rows, upper, slack } = p;
    const { primal, dual } = distance;
    // Where a bound is infinite its multiplier is zero and stays so.
    for (let j = 0; j < variables; j += 1) {
      wantLower[j] = target - v[j] * zl[j];
      wantUpper[j] = upper[j] < Number.POSITIVE_INFINITY ? target - w[j] * zu[j] : 0;
    }
    if (second !== null) {
      for (let j = 0; j < variables; j += 1) {
        wantLower[j] -= second.v[j] * second.zl[j];
        wantUpper[j] += second.v[j] * second.zu[j];
      }
    }
    for (let j = 0; j < columns; j += 1) columnSide[j] = dual[j] - wantLower[j] / v[j] + wantUpper[j] / w[j];
    for (let i = 0; i < rows; i += 1) {
      const s = slack[i];
      rowSide[i] = primal[i];
      if (s < 0) continue;
      slackSide[i] = dual[s] - wantLower[s] / v[s] + wantUpper[s] / w[s];
      rowSide[i] += slackSide[i] / h[s];
    }
    this.system.solve(columnSide, rowSide, out.v, out.y);
    for (let i = 0; i < rows; i += 1) {
      const s = slack[i];
      if (s >= 0) out.v[s] = (out.y[i] - slackSide[i]) / h[s];
    }
    for (let j = 0; j < variables; j += 1) {
      out.zl[j] = (wantLower[j] - zl[j] * out.v[j]) / v[j];
      out.zu[j] = (wantUpper[j] + zu[j] * out.v[j]) / w[j];
    }
  }
}

export const emptyDirection = (p: BlockProgram): Direction => ({
  v: new Float64Array(p.variables),
  zl: new Float64Array(p.variables),
  zu: new Float64Array(p.variables),
  y: new Float64Array(p.rows),
});

/** Longest steps, at most `most`, that keep the primal and the dual side non-negative. */
export function longestSteps(p: BlockProgram, { v, w, zl, zu }: Iterate, d: Direction, most: number) {
  let primal = most;
  let dual = most;
  for (let j = 0; j < p.variables; j += 1) {
    if (d.v[j] < 0) primal = Math.min(primal, -v[j] / d.v[j]);
    if (d.zl[j] < 0) dual = Math.min(dual, -zl[j] / d.zl[j]);
    if (p.upper[j] === Number.POSITIVE_INFINITY) continue;
    if (d.v[j] > 0) primal = Math.min(primal, w[j] / d.v[j]);
    if (d.zu[j] < 0) dual = Math.min(dual, -zu[j] / d.zu[j]);
  }
  return { primal, dual };
}

/** Mean complementarity product after a step. */
export function productAfter(
  p: BlockProgram,
  { v, w, zl, zu }: Iterate,
  d: Direction,
  steps: { readonly primal: number; readonly dual: number },
): number {
  let sum = 0;
  let pairs = 0;
  for (let j = 0; j < p.variables; j += 1) {
    sum += (v[j] + steps.primal * d.v[j]) * (zl[j] + steps.dual * d.zl[j]);
    pairs += 1;
    if (p.upper[j] === Number.POSITIVE_INFINITY) continue;
    sum += (w[j] - steps.primal * d.v[j]) * (zu[j] + steps.dual * d.zu[j]);
    pairs += 1;
  }
  return sum / pairs;
}

/** Moves the point along the direction. */
export function move(
  p: BlockProgram,
  { v, w, zl, zu, y }: Iterate,
  d: Direction,
  steps: { readonly primal: number; readonly dual: number },
): void {
  for (let j = 0; j < p.variables; j += 1) {
    v[j] += steps.primal * d.v[j];
    zl[j] += steps.dual * d.zl[j];
    if (p.upper[j] === Number.POSITIVE_INFINITY) continue;
    w[j] -= steps.primal * d.v[j];
    zu[j] += steps.dual * d.zu[j];
  }
  for (let i = 0; i < p.rows; i += 1) y[i] += steps.dual * d.y[i];
}
