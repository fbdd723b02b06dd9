import type { Solvers } from "../core/study/sizing/solvers.ts";
import { loadHighs } from "./highs.ts";
import { interiorPoint } from "./interior-point/interior-point.ts";
import { javascriptLpSolver } from "./javascript-lp-solver.ts";

/** The solvers of a sizing. */
export async function loadSolvers(): Promise<Solvers> {
  return { quick: javascriptLpSolver, exact: await loadHighs(), engine: interiorPoint };
}
