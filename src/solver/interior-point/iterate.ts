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
  /** Largest entry of each; usual right-hand sides and costs are about 1. */
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
    return {
      primal,
      dual,
      primalInfeasibility: largest(primal),
      dualInfeasibility: largest(dual),
      objective,
      relativeGap: Math.abs(objective - dualObjective) / (1 + Math.abs(objective)),
      mu: products / pairs,
    };
  }
}
