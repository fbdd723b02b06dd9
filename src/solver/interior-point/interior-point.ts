import type {
  LinearProgram,
  LpAnswer,
  LpSession,
  LpSolver,
  SolveOptions,
  SolveStatus,
} from "../../core/dispatch/program.ts";
import { blockProgram } from "./block-program.ts";
import { type IterationOptions, predictorCorrector } from "./predictor-corrector.ts";
import { presolve } from "./presolve.ts";
import { restore } from "./restore.ts";

const name = "interior point";

/**
 * Our own interior-point method, for programs whose columns belong to blocks that follow each other:
 * its work grows with the number of blocks. The answer lies inside the optimal face, not at a vertex.
 * Infeasible programs are told only where a row or bound alone shows it; else they end as `unknown`.
 */
export const interiorPoint: LpSolver = {
  name,
  open: (program) => new InteriorPointSession(program),
};

class InteriorPointSession implements LpSession {
  private program: LinearProgram;

  constructor(program: LinearProgram) {
    this.program = program;
  }

  run(options: SolveOptions = {}): LpAnswer {
    const began = performance.now();
    const answer = solve(this.program, {
      onIteration: (iteration) => options.onIterations?.(iteration),
      ...(options.shouldStop === undefined ? {} : { shouldStop: options.shouldStop }),
    });
    return { ...answer, solve_s: (performance.now() - began) / 1000 };
  }

  setColumnBounds(columns: Int32Array, lower: Float64Array, upper: Float64Array): void {
    const colLower = this.program.colLower.slice();
    const colUpper = this.program.colUpper.slice();
    columns.forEach((column, i) => {
      colLower[column] = lower[i];
      colUpper[column] = upper[i];
    });
    this.program = { ...this.program, colLower, colUpper };
  }

  setCosts(cost: Float64Array): void {
    if (cost.length !== this.program.columns) throw new RangeError("one cost for each column");
    this.program = { ...this.program, cost: cost.slice() };
  }

  close(): void {}
}

function solve(program: LinearProgram, options: IterationOptions): Omit<LpAnswer, "solve_s"> {
  const without = (status: SolveStatus, iterations: number) => ({
    solver: name,
    status,
    objective: Number.NaN,
    primal: new Float64Array(0),
    rowDual: null,
    reducedCost: null,
    iterations,
  });
  const bounded = presolve(program);
  if (bounded === "infeasible" || bounded === "unbounded") return without(bounded, 0);
  const blocks = blockProgram(bounded);
  const { converged, stopped, point, iterations } = predictorCorrector(blocks, options);
  if (!converged) return without(stopped ? "stopped" : "unknown", iterations);
  return { solver: name, status: "optimal", iterations, ...restore(program, bounded, blocks, point) };
}
