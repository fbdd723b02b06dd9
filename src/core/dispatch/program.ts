/**
 * A linear program: minimise cost·x subject to rowLower ≤ A·x ≤ rowUpper, colLower ≤ x ≤ colUpper.
 * A is kept by columns (compressed sparse column). Bounds may be ±Infinity. The objective has no
 * constant: a constant is a column fixed at 1.
 */
export interface LinearProgram {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly cost: Float64Array;
  readonly colLower: Float64Array;
  readonly colUpper: Float64Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  /** columns + 1 entries. */
  readonly starts: Int32Array;
  readonly indices: Int32Array;
  readonly values: Float64Array;
  /** None for a program without blocks. */
  readonly structure?: ProgramStructure;
  /** Names without blanks, made on demand. */
  columnName(column: number): string;
  rowName(row: number): string;
}

/**
 * What repeats from block to block: the block of each column and row, −1 where it has none, and its
 * kind, a number that the same quantity has in every block.
 */
export interface ProgramStructure {
  readonly columnBlock: Int32Array;
  readonly columnKind: Uint16Array;
  readonly rowBlock: Int32Array;
  readonly rowKind: Uint16Array;
}

export type SolveStatus = "optimal" | "infeasible" | "unbounded" | "stopped" | "unknown";

export interface LpAnswer {
  readonly solver: string;
  readonly status: SolveStatus;
  /** cost·x of the program as written. NaN unless optimal. */
  readonly objective: number;
  /** Empty unless optimal. */
  readonly primal: Float64Array;
  /** Shadow price of each row (d objective / d right-hand side); null where the solver has none. */
  readonly rowDual: Float64Array | null;
  readonly reducedCost: Float64Array | null;
  readonly iterations: number;
  /** The solver's own time, s. */
  readonly solve_s: number;
}

export interface SolveOptions {
  /** Called now and then with the iterations done so far. Must return at once. */
  readonly onIterations?: (iterations: number) => void;
  /** Asked now and then; true ends the run with status `stopped`. */
  readonly shouldStop?: () => boolean;
}

/** One program held by a solver; runs after the first start from the last basis where the solver can. */
export interface LpSession {
  run(options?: SolveOptions): LpAnswer;
  setColumnBounds(columns: Int32Array, lower: Float64Array, upper: Float64Array): void;
  setCosts(cost: Float64Array): void;
  close(): void;
}

/** A solver behind the one interface that the recipe knows. */
export interface LpSolver {
  readonly name: string;
  open(program: LinearProgram): LpSession;
}

/** Opens, runs once and closes. */
export function solveOnce(solver: LpSolver, program: LinearProgram, options?: SolveOptions): LpAnswer {
  const session = solver.open(program);
  try {
    return session.run(options);
  } finally {
    session.close();
  }
}

/** The solver was asked to stop before it had an answer. */
export class StoppedError extends Error {
  override readonly name = "StoppedError";
}

/** The answer, if it is one. @throws StoppedError, or Error where a program that has an answer gave none */
export function demandOptimal(answer: LpAnswer): LpAnswer {
  if (answer.status === "optimal") return answer;
  if (answer.status === "stopped") throw new StoppedError("stopped before there was an answer");
  throw new Error(`${answer.solver} ended with status ${answer.status} on a program that has an answer`);
}
