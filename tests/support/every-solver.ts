import type { LpSolver } from "../../src/core/dispatch/program.ts";
import { loadHighs } from "../../src/solver/highs.ts";
import { interiorPoint } from "../../src/solver/interior-point/interior-point.ts";
import { javascriptLpSolver } from "../../src/solver/javascript-lp-solver.ts";

/** A solver and what can be asked of it: the simplex ends on a vertex, the interior point beside it. */
export interface EverySolver {
  readonly solver: LpSolver;
  /** Relative, of the objective. */
  readonly costTolerance: number;
  /** Relative, of a column or a shadow price. */
  readonly sizeTolerance: number;
  readonly hasDuals: boolean;
  /** Largest program that it solves in a second or so. */
  readonly mostBlocks: number;
  /** Whether it tells every infeasible and unbounded program, or answers `unknown` to some. */
  readonly tellsAll: boolean;
}

/** Every solver there is. */
export async function everySolver(): Promise<readonly EverySolver[]> {
  const simplex = { costTolerance: 1e-9, sizeTolerance: 1e-9, tellsAll: true };
  return [
    { solver: await loadHighs(), ...simplex, hasDuals: true, mostBlocks: 10_000 },
    { solver: javascriptLpSolver, ...simplex, hasDuals: false, mostBlocks: 200 },
    {
      solver: interiorPoint,
      costTolerance: 1e-7,
      sizeTolerance: 1e-5,
      hasDuals: true,
      mostBlocks: 10_000,
      tellsAll: false,
    },
  ];
}
