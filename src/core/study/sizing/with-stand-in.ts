import type { LinearProgram, LpAnswer, LpSession, LpSolver, SolveOptions } from "../../dispatch/program.ts";
import { scaleOf, verify } from "../../dispatch/verify.ts";

/** Recomputed gap and residual (relative to the program's largest number) up to which an answer counts. */
const tolerance = 1e-6;

/**
 * A solver that asks `first` and, where that does not prove an answer, `standIn`. Every answer of the
 * first is checked by `verify`, which shares nothing with it. `onStandIn` hears why the stand-in was
 * asked, in words that follow the solver's name: "did not reach its tolerance in 300 steps".
 */
export function withStandIn(first: LpSolver, standIn: LpSolver, onStandIn: (why: string) => void): LpSolver {
  return { name: first.name, open: (program) => new StandInSession(program, first, standIn, onStandIn) };
}

class StandInSession implements LpSession {
  private program: LinearProgram;
  private readonly first: LpSession;
  private readonly standIn: LpSolver;
  private second: LpSession | null = null;
  private readonly onStandIn: (why: string) => void;

  constructor(program: LinearProgram, first: LpSolver, standIn: LpSolver, onStandIn: (why: string) => void) {
    this.program = program;
    this.first = first.open(program);
    this.standIn = standIn;
    this.onStandIn = onStandIn;
  }

  run(options?: SolveOptions): LpAnswer {
    // Once the first has failed on a program, its neighbours go straight to the stand-in, which is warm.
    if (this.second !== null) return this.second.run(options);
    const answer = this.first.run(options);
    const why = doubtOf(this.program, answer);
    if (answer.status === "stopped" || why === null) return answer;
    this.second = this.standIn.open(this.program);
    const other = this.second.run(options);
    // Where the program has no answer, both were right.
    if (other.status === "optimal") this.onStandIn(why);
    return { ...other, solve_s: other.solve_s + answer.solve_s };
  }

  setColumnBounds(columns: Int32Array, lower: Float64Array, upper: Float64Array): void {
    const colLower = this.program.colLower.slice();
    const colUpper = this.program.colUpper.slice();
    columns.forEach((column, i) => {
      colLower[column] = lower[i];
      colUpper[column] = upper[i];
    });
    this.program = { ...this.program, colLower, colUpper };
    this.first.setColumnBounds(columns, lower, upper);
    this.second?.setColumnBounds(columns, lower, upper);
  }

  setCosts(cost: Float64Array): void {
    this.program = { ...this.program, cost: cost.slice() };
    this.first.setCosts(cost);
    this.second?.setCosts(cost);
  }

  close(): void {
    this.first.close();
    this.second?.close();
  }
}

/** What is wrong with an answer, or null. */
function doubtOf(program: LinearProgram, answer: LpAnswer): string | null {
  if (answer.status !== "optimal")
    return `ended with status ${answer.status} after ${answer.iterations} steps`;
  const { primalResidual, relativeGap } = verify(program, answer.primal, answer.rowDual);
  const allowed = tolerance * scaleOf(program);
  if (!(primalResidual <= allowed)) return `left a residual of ${primalResidual.toExponential(1)}`;
  if (relativeGap === null || !(relativeGap <= tolerance))
    return `left a gap of ${relativeGap?.toExponential(1) ?? "unknown size"}`;
  return null;
}
