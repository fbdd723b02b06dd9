import highsModule from "highs";
import type {
  LinearProgram,
  LpAnswer,
  LpSession,
  LpSolver,
  SolveOptions,
  SolveStatus,
} from "../core/dispatch/program.ts";

// The package's types describe CommonJS; under NodeNext the default import is the loader itself.
const loadModule = highsModule as unknown as typeof highsModule.default;
type Highs = Awaited<ReturnType<typeof loadModule>>;

const statusOf: Readonly<Record<number, SolveStatus>> = {
  7: "optimal",
  8: "infeasible",
  9: "infeasible",
  10: "unbounded",
  13: "stopped",
  14: "stopped",
  17: "stopped",
};
/** Dual steepest edge is the package's default; devex took two thirds of its time on full years. */
const devexPricing = 1;
const dualSimplex = 1;
const primalSimplex = 4;
const simplexInterrupt = 1;
const told = (outcome: { readonly modelStatus: number }) => statusOf[outcome.modelStatus] ?? "unknown";

let loading: Promise<Highs> | null = null;

export interface HighsOptions {
  /** Largest violation of a row, a bound or a reduced cost, in the program's own units; 1e-10 to 1e-3, 1e-7 if left out. */
  readonly tolerance?: number;
}

/** The HiGHS dual simplex (npm `highs`), loaded once a process. */
export async function loadHighs(options: HighsOptions = {}): Promise<LpSolver> {
  loading ??= loadModule();
  const highs = await loading;
  return { name: "highs", open: (program) => new HighsSession(highs, program, options) };
}

class HighsSession implements LpSession {
  private readonly model: ReturnType<Highs["createModel"]>;
  private readonly program: LinearProgram;
  private readonly highs: Highs;

  constructor(highs: Highs, program: LinearProgram, { tolerance }: HighsOptions) {
    this.program = program;
    const bound = (values: Float64Array) =>
      Float64Array.from(values, (value) =>
        value === Number.POSITIVE_INFINITY
          ? highs.infinity
          : value === Number.NEGATIVE_INFINITY
            ? -highs.infinity
            : value,
      );
    this.model = highs.createModel({
      numCols: program.columns,
      numRows: program.rows,
      colCost: program.cost,
      colLower: bound(program.colLower),
      colUpper: bound(program.colUpper),
      rowLower: bound(program.rowLower),
      rowUpper: bound(program.rowUpper),
      matrix: {
        format: "csc",
        numRows: program.rows,
        numCols: program.columns,
        starts: program.starts,
        indices: program.indices,
        values: program.values,
      },
    });
    this.highs = highs;
    this.model.options.set({ output_flag: false, simplex_dual_edge_weight_strategy: devexPricing });
    if (tolerance !== undefined) {
      this.model.options.set({
        primal_feasibility_tolerance: tolerance,
        dual_feasibility_tolerance: tolerance,
      });
    }
  }

  run(options: SolveOptions = {}): LpAnswer {
    const began = performance.now();
    let status = this.runWith(dualSimplex, options);
    // On infeasible full years the dual simplex has answered "unknown" where the primal one tells.
    if (status === "unknown") status = this.runWith(primalSimplex, options);
    const solve_s = (performance.now() - began) / 1000;
    const iterations = Number(this.model.info.get("simplex_iteration_count"));
    if (status !== "optimal") {
      const none = new Float64Array(0);
      return {
        solver: "highs",
        status,
        objective: Number.NaN,
        primal: none,
        rowDual: null,
        reducedCost: null,
        iterations,
        solve_s,
      };
    }
    const solution = this.model.getSolution();
    return {
      solver: "highs",
      status,
      objective: this.model.getObjectiveValue(),
      primal: Float64Array.from(solution.colValue),
      rowDual: Float64Array.from(solution.rowDual),
      reducedCost: Float64Array.from(solution.colDual),
      iterations,
      solve_s,
    };
  }

  private runWith(strategy: number, { onIterations, shouldStop }: SolveOptions): SolveStatus {
    this.model.zeroAllClocks();
    this.model.options.set("simplex_strategy", strategy);
    if (onIterations === undefined && shouldStop === undefined) return this.outcome(() => this.model.run());
    let calls = 0;
    return this.outcome(() =>
      this.model.run({
        // Fires once an iteration; a look every 64th keeps its cost small.
        [simplexInterrupt]: (event) => {
          calls += 1;
          if (calls % 64 !== 0) return;
          onIterations?.(calls);
          if (shouldStop?.() === true) event.interrupt();
        },
      }),
    );
  }

  /** At tolerances below 1e-8 a run has failed on a program that has an answer: it does not know, then. */
  private outcome(run: () => { readonly modelStatus: number }): SolveStatus {
    try {
      return told(run());
    } catch (error) {
      const { HighsError } = this.highs.errors;
      if (error instanceof HighsError && error.operation === "run") return "unknown";
      throw error;
    }
  }

  setColumnBounds(columns: Int32Array, lower: Float64Array, upper: Float64Array): void {
    const finite = Float64Array.from(upper, (value) => Math.min(value, this.highs.infinity));
    this.model.changeColsBounds({ kind: "set", indices: columns }, lower, finite);
  }

  setCosts(cost: Float64Array): void {
    if (cost.length !== this.program.columns) throw new RangeError("one cost for each column");
    this.model.changeColsCost({ kind: "set", indices: Int32Array.from(cost, (_, j) => j) }, cost);
  }

  close(): void {
    this.model.dispose();
  }
}
