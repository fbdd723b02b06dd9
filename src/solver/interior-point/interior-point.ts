import type {
  LinearProgram,
  LpAnswer,
  LpSession,
  LpSolver,
  SolveOptions,
  SolveStatus,
} from "../../core/dispatch/program.ts";
import { type IterationOptions, predictorCorrector } from "./predictor-corrector.ts";
import { foundPoint, restore } from "./restore.ts";
import { scaleStaircase } from "./scale.ts";
import { staircase } from "./staircase.ts";
import { System } from "./system.ts";

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
  const found = find(program, options);
  if (typeof found === "string") return without(found === "unsupported" ? "unknown" : found, 0);
  const { converged, stopped, iterations, point, scaling } = found;
  if (!converged) return without(stopped ? "stopped" : "unknown", iterations);
  return { solver: name, status: "optimal", iterations, ...restore(program, point, scaling) };
}

/** The method's last point; the arrays that led there are let go. */
function find(program: LinearProgram, options: IterationOptions) {
  const stairs = staircase(program);
  if (typeof stairs === "string") return stairs;
  const scaling = scaleStaircase(stairs);
  const system = new System(stairs);
  return { ...predictorCorrector(system, options), point: foundPoint(system), scaling };
}
