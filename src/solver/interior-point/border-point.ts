import type { Staircase } from "./staircase.ts";

/** A value v ≥ 0 with v ≤ upper and the multipliers of both bounds. */
export interface Bounded {
  readonly v: Float64Array;
  /** upper − v; Infinity where there is no upper bound. */
  readonly gap: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly dv: Float64Array;
  readonly dLower: Float64Array;
  readonly dUpper: Float64Array;
  /** What the products lack: target − v·lower, target − gap·upper. */
  readonly wantLower: Float64Array;
  readonly wantUpper: Float64Array;
}

export function bounded(count: number): Bounded {
  const each = () => new Float64Array(count);
  return {
    v: each(),
    gap: each().fill(Number.POSITIVE_INFINITY),
    lower: each(),
    upper: each(),
    dv: each(),
    dLower: each(),
    dUpper: each(),
    wantLower: each(),
    wantUpper: each(),
  };
}

/** Everything of a point that is not in blocks: sizes, slacks and duals of long rows, links. */
export interface BorderPoint {
  readonly sizes: Bounded;
  /** Of long rows; those of equations are not used. */
  readonly slacks: Bounded;
  readonly isInequality: Uint8Array;
  readonly eta: Float64Array;
  readonly dEta: Float64Array;
  /** Segments × links. */
  readonly link: Float64Array;
  readonly dLink: Float64Array;
}

export function borderPoint(stairs: Staircase): BorderPoint {
  const { sizeWidth, longSlack, segments, template } = stairs;
  const links = template.carried.filter(({ kind }) => kind === "link").length;
  return {
    sizes: bounded(sizeWidth.length),
    slacks: bounded(longSlack.length),
    isInequality: Uint8Array.from(longSlack, (width) => (width > 0 ? 1 : 0)),
    eta: new Float64Array(longSlack.length),
    dEta: new Float64Array(longSlack.length),
    link: new Float64Array(segments.length * links),
    dLink: new Float64Array(segments.length * links),
  };
}

/** target − products, less the predictor's second-order part. */
export function setWants(b: Bounded, target: number, second: number): void {
  for (let j = 0; j < b.v.length; j += 1) {
    b.wantLower[j] = target - b.v[j] * b.lower[j] - second * b.dv[j] * b.dLower[j];
    b.wantUpper[j] =
      b.gap[j] < Number.POSITIVE_INFINITY
        ? target - b.gap[j] * b.upper[j] + second * b.dv[j] * b.dUpper[j]
        : 0;
  }
}

/** H of a bounded value: the curvature of both bounds and the proximal weight. */
export function curvature({ v, gap, lower, upper }: Bounded, j: number, rho: number): number {
  const bound = gap[j] < Number.POSITIVE_INFINITY ? upper[j] / gap[j] : 0;
  return lower[j] / v[j] + bound + rho / Math.max(1, 0.1 * v[j]);
}

/** −wantLower/v + wantUpper/gap: how wants enter the dual row. */
export function wantSide({ v, gap, wantLower, wantUpper }: Bounded, j: number): number {
  return -wantLower[j] / v[j] + (gap[j] < Number.POSITIVE_INFINITY ? wantUpper[j] / gap[j] : 0);
}

export function setMultiplierSteps(b: Bounded, j: number): void {
  b.dLower[j] = (b.wantLower[j] - b.lower[j] * b.dv[j]) / b.v[j];
  b.dUpper[j] = b.gap[j] < Number.POSITIVE_INFINITY ? (b.wantUpper[j] + b.upper[j] * b.dv[j]) / b.gap[j] : 0;
}

/** Adds what bounded values contribute to reach and product sums (OUT of the backward kernel). */
export function addReach(b: Bounded, use: Uint8Array | null, out: Float64Array): void {
  for (let j = 0; j < b.v.length; j += 1) {
    if (use !== null && use[j] === 0) continue;
    out[0] = Math.max(out[0], -b.dv[j] / b.v[j]);
    if (b.dLower[j] < 0) out[1] = Math.max(out[1], -b.dLower[j] / b.lower[j]);
    out[2] += b.v[j] * b.lower[j];
    out[3] += b.v[j] * b.dLower[j];
    out[4] += b.lower[j] * b.dv[j];
    out[5] += b.dv[j] * b.dLower[j];
    if (b.gap[j] === Number.POSITIVE_INFINITY) continue;
    out[0] = Math.max(out[0], b.dv[j] / b.gap[j]);
    if (b.dUpper[j] < 0) out[1] = Math.max(out[1], -b.dUpper[j] / b.upper[j]);
    out[2] += b.gap[j] * b.upper[j];
    out[3] += b.gap[j] * b.dUpper[j];
    out[4] -= b.upper[j] * b.dv[j];
    out[5] -= b.dv[j] * b.dUpper[j];
  }
}

export function moveBounded(b: Bounded, primal: number, dual: number): void {
  for (let j = 0; j < b.v.length; j += 1) {
    b.v[j] += primal * b.dv[j];
    b.lower[j] += dual * b.dLower[j];
    if (b.gap[j] === Number.POSITIVE_INFINITY) continue;
    b.gap[j] -= primal * b.dv[j];
    b.upper[j] += dual * b.dUpper[j];
  }
}
