import solverModule from "javascript-lp-solver";
import type {
  LinearProgram,
  LpAnswer,
  LpSession,
  LpSolver,
  SolveOptions,
  SolveStatus,
} from "../core/dispatch/program.ts";
import { ModelError } from "../core/errors.ts";

// The package's types describe CommonJS; under NodeNext the default import is the solver itself.
const solver = solverModule as unknown as typeof solverModule.default;

interface Answer {
  readonly feasible: boolean;
  readonly bounded?: boolean;
  readonly result: number;
  readonly [column: string]: unknown;
}

/** The dense simplex of npm `javascript-lp-solver`: for programs of a few hundred rows. It gives no duals. */
export const javascriptLpSolver: LpSolver = {
  name: "javascript-lp-solver",
  open: (program) => new TableauSession(program),
};

class TableauSession implements LpSession {
  private readonly program: LinearProgram;
  private readonly lower: Float64Array;
  private readonly upper: Float64Array;
  private cost: Float64Array;

  constructor(program: LinearProgram) {
    this.program = program;
    this.lower = program.colLower.slice();
    this.upper = program.colUpper.slice();
    this.cost = program.cost;
  }

  run({ onIterations, shouldStop }: SolveOptions = {}): LpAnswer {
    const began = performance.now();
    const current = { ...this.program, colLower: this.lower, colUpper: this.upper, cost: this.cost };
    let pivots = 0;
    const mostPivots = leastPivotLimit + pivotsPerLine * (current.rows + current.columns);
    const watch = () => {
      pivots += 1;
      // It may cycle for ever on a degenerate program, and its own test for cycles does not see long ones.
      if (pivots > mostPivots) throw new GivenUp("unknown");
      if (pivots % 64 !== 0) return;
      onIterations?.(pivots);
      if (shouldStop?.() === true) throw new GivenUp("stopped");
    };
    let answer: Answer | null = null;
    let ended: SolveStatus = "unknown";
    try {
      answer = solveWatched(modelOf(current), watch);
    } catch (error) {
      if (!(error instanceof GivenUp)) throw error;
      ended = error.status;
    }
    const solve_s = (performance.now() - began) / 1000;
    const blank = {
      solver: "javascript-lp-solver",
      objective: Number.NaN,
      primal: new Float64Array(0),
      rowDual: null,
      reducedCost: null,
      iterations: pivots,
      solve_s,
    };
    if (answer === null) return { ...blank, status: ended };
    // An unbounded program is called feasible with an infinite result.
    if (answer.bounded === false || !Number.isFinite(answer.result)) {
      return { ...blank, status: answer.feasible ? "unbounded" : "infeasible" };
    }
    if (!answer.feasible) return { ...blank, status: "infeasible" };
    const primal = new Float64Array(current.columns);
    for (let j = 0; j < current.columns; j += 1) {
      const value = answer[`c${j}`];
      primal[j] = this.lower[j] + (typeof value === "number" ? value : 0);
    }
    let objective = 0;
    for (let j = 0; j < current.columns; j += 1) objective += current.cost[j] * primal[j];
    return { ...blank, status: "optimal", objective, primal };
  }

  setColumnBounds(columns: Int32Array, lower: Float64Array, upper: Float64Array): void {
    columns.forEach((column, i) => {
      this.lower[column] = lower[i];
      this.upper[column] = upper[i];
    });
  }

  setCosts(cost: Float64Array): void {
    this.cost = cost;
  }

  close(): void {}
}

/** A program of a few hundred rows has taken up to four pivots a row and column; six is astray. */
const pivotsPerLine = 6;
const leastPivotLimit = 1000;

class GivenUp extends Error {
  readonly status: SolveStatus;
  constructor(status: SolveStatus) {
    super(status);
    this.status = status;
  }
}

/** Solves a model of the package, calling `watch` before each pivot; what it throws comes out. */
function solveWatched(json: object, watch: () => void): Answer {
  const model = new solver.Model().loadJson(json as Parameters<typeof solver.Solve>[0] as never);
  const { tableau } = model;
  const pivot = tableau.pivot.bind(tableau);
  tableau.pivot = (row: number, column: number) => {
    watch();
    pivot(row, column);
  };
  return solver.Solve(model as never) as Answer;
}

/** The package takes anything below 1e-8 for zero, so costs are brought near this. */
const usualCost = 100;

/**
 * The package's model: columns are moved to start at 0, finite upper bounds become rows.
 *
 * @throws ModelError OUT_OF_RANGE for a column without a lower bound
 */
function modelOf(program: LinearProgram): object {
  const { columns, rows, starts, indices, values, cost, colLower, colUpper, rowLower, rowUpper } = program;
  const costs = cost
    .filter((value) => value !== 0)
    .map(Math.abs)
    .sort();
  const costScale = costs.length > 0 ? usualCost / costs[costs.length >> 1] : 1;
  const shift = new Float64Array(rows);
  const variables: Record<string, Record<string, number>> = {};
  const constraints: Record<string, { min?: number; max?: number; equal?: number }> = {};
  for (let j = 0; j < columns; j += 1) {
    if (colLower[j] === Number.NEGATIVE_INFINITY)
      throw new ModelError("OUT_OF_RANGE", `no lower bound of ${program.columnName(j)}`);
    for (let e = starts[j]; e < starts[j + 1]; e += 1) shift[indices[e]] += values[e] * colLower[j];
    if (colUpper[j] === colLower[j]) continue;
    const variable: Record<string, number> = { cost: cost[j] * costScale };
    for (let e = starts[j]; e < starts[j + 1]; e += 1) variable[`r${indices[e]}`] = values[e];
    if (colUpper[j] !== Number.POSITIVE_INFINITY) {
      variable[`b${j}`] = 1;
      constraints[`b${j}`] = { max: colUpper[j] - colLower[j] };
    }
    variables[`c${j}`] = variable;
  }
  for (let i = 0; i < rows; i += 1) {
    const lower = rowLower[i] - shift[i];
    const upper = rowUpper[i] - shift[i];
    if (lower === upper) constraints[`r${i}`] = { equal: lower };
    else {
      const bounds: { min?: number; max?: number } = {};
      if (lower > Number.NEGATIVE_INFINITY) bounds.min = lower;
      if (upper < Number.POSITIVE_INFINITY) bounds.max = upper;
      constraints[`r${i}`] = bounds;
    }
  }
  return { optimize: "cost", opType: "min", constraints, variables };
}
