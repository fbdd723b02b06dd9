import { type BlockProgram, multiply, multiplyTransposed } from "./block-program.ts";

/** A point of the method: primal, distance to the upper bound, duals of both bounds, row duals. */
export interface Iterate {
  readonly v: Float64Array;
  readonly w: Float64Array;
  readonly zl: Float64Array;
  readonly zu: Float64Array;
  readonly y: Float64Array;
}

/** How far a point is from optimal, all in scaled units. */
export interface Distance {
  /** rhs − A·x − slack by rows. */
  readonly primal: Float64Array;
  /** cost − Aᵀ·y − zl + zu by variables. */
  readonly dual: Float64Array;
  /**
   * Largest entry of each. Near the optimum an entry counts relative to the largest product in its
   * row or column, where that exceeds 1, since rounding allows no more.
   */
  readonly primalInfeasibility: number;
  readonly dualInfeasibility: number;
  readonly objective: number;
  readonly relativeGap: number;
  /** Mean complementarity product. */
  readonly mu: number;
}

const largest = (values: Float64Array) => {
  let most = 0;
  for (let i = 0; i < values.length; i += 1) {
    const size = Math.abs(values[i]);
    if (!(size <= most)) most = size;
  }
  return most;
};

/** Relative gap below which residuals are compared with the products in them. */
const nearOptimum = 1e-6;

/** Keeps the arrays and norms that every measurement needs. */
export class Meter {
  private readonly p: BlockProgram;
  private readonly primal: Float64Array;
  private readonly dual: Float64Array;

  constructor(p: BlockProgram) {
    this.p = p;
    this.primal = new Float64Array(p.rows);
    this.dual = new Float64Array(p.variables);
  }

  /** The returned arrays are used again by the next call. */
  measure({ v, w, zl, zu, y }: Iterate): Distance {
    const { p, primal, dual } = this;
    multiply(p, v, primal);
    multiplyTransposed(p, y, dual);
    let objective = 0;
    let dualObjective = 0;
    for (let i = 0; i < p.rows; i += 1) {
      const slack = p.slack[i];
      if (slack >= 0) {
        primal[i] += v[slack];
        dual[slack] = y[i];
      }
      primal[i] = p.rhs[i] - primal[i];
      dualObjective += p.rhs[i] * y[i];
    }
    let products = 0;
    let pairs = 0;
    for (let j = 0; j < p.variables; j += 1) {
      objective += p.cost[j] * v[j];
      products += v[j] * zl[j];
      pairs += 1;
      let residual = p.cost[j] - dual[j] - zl[j];
      if (p.upper[j] < Number.POSITIVE_INFINITY) {
        residual += zu[j];
        dualObjective -= p.upper[j] * zu[j];
        products += w[j] * zu[j];
        pairs += 1;
      }
      dual[j] = residual;
    }
    const relativeGap = Math.abs(objective - dualObjective) / (1 + Math.abs(objective));
    const relative = relativeGap < nearOptimum ? this.relativeResiduals(v, y) : null;
    return {
      primal,
      dual,
      primalInfeasibility: relative?.primal ?? largest(primal),
      dualInfeasibility: relative?.dual ?? largest(dual),
      objective,
      relativeGap,
      mu: products / pairs,
    };
  }

  private relativeResiduals(v: Float64Array, y: Float64Array): { primal: number; dual: number } {
    const { p } = this;
    const row = new Float64Array(p.rows).fill(1);
    const column = new Float64Array(p.variables).fill(1);
    const see = (i: number, j: number, value: number) => {
      row[i] = Math.max(row[i], Math.abs(value * v[j]));
      column[j] = Math.max(column[j], Math.abs(value * y[i]));
    };
    for (let j = 0; j < p.columns; j += 1) {
      for (let e = p.starts[j]; e < p.starts[j + 1]; e += 1) see(p.indices[e], j, p.values[e]);
    }
    const first = p.interior + p.border;
    for (let i = 0; i < p.limits; i += 1) {
      see(first + i, p.limitLocal[i], p.limitCoefficient[i]);
      for (let q = p.limitStarts[i]; q < p.limitStarts[i + 1]; q += 1) {
        see(first + i, p.locals + p.limitShared[q], p.limitValues[q]);
      }
    }
    for (let i = 0; i < p.rows; i += 1) if (p.slack[i] >= 0) see(i, p.slack[i], 1);
    return {
      primal: largest(this.primal.map((value, i) => value / row[i])),
      dual: largest(this.dual.map((value, j) => value / column[j])),
    };
  }
}

/** Raises every positive part of a point to at least `least`, half of a bounded range at most. */
export function lift(p: BlockProgram, { v, w, zl, zu }: Iterate, least: number): void {
  for (let j = 0; j < p.variables; j += 1) {
    zl[j] = Math.max(zl[j], least);
    if (p.upper[j] === Number.POSITIVE_INFINITY) {
      v[j] = Math.max(v[j], least);
      continue;
    }
    zu[j] = Math.max(zu[j], least);
    const room = Math.min(least, p.upper[j] / 2);
    if (v[j] >= room && w[j] >= room) continue;
    v[j] = v[j] < room ? room : p.upper[j] - room;
    w[j] = p.upper[j] - v[j];
  }
}
