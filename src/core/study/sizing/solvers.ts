import type { LpSolver, SolveOptions } from "../../dispatch/program.ts";
import { withStandIn } from "./with-stand-in.ts";

/** Solvers that a sizing may use. */
export interface Solvers {
  /** For the few hundred rows of typical days. */
  readonly quick: LpSolver;
  /** Of full years, and the judge of the others. */
  readonly exact: LpSolver;
  /** Made for full years; the exact solver stands in where it does not prove its answer. */
  readonly engine: LpSolver;
}

/** Which one solves the full year. */
export type YearSolver = "interior-point" | "highs";

/** A solver of full-year programs, with what there was to say about it. */
export interface YearSolving {
  readonly solver: LpSolver;
  readonly remarks: readonly string[];
}

/** The solver that was asked for; the engine comes with the exact solver as its stand-in. */
export function yearSolving(solvers: Solvers, choice: YearSolver): YearSolving {
  if (choice === "highs") return { solver: solvers.exact, remarks: [] };
  const remarks: string[] = [];
  const solver = withStandIn(solvers.engine, solvers.exact, (why) => {
    remarks.push(
      `The ${solvers.engine.name} engine ${why} on one of the full-year programs; ${solvers.exact.name} solved it instead.`,
    );
  });
  return { solver, remarks };
}

/** True of the remark that another solver stood in for the engine. */
export function isStandInRemark(remark: string): boolean {
  return /^The .+ engine .+; .+ solved it instead\.$/.test(remark);
}

/** What a sizing hands on to its parts. */
export interface Watch {
  readonly progress: (doing: string, share: number | null) => void;
  readonly watched: SolveOptions;
}
