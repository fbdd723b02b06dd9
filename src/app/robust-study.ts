import { tell } from "../core/problem.ts";
import { plantModel } from "../core/study/plant-model.ts";
import { type RobustSizing, robustSizes } from "../core/study/robust/robust-sizes.ts";
import { type Solvers, type YearSolver, yearSolving } from "../core/study/sizing/solvers.ts";
import type { ResolvedFutures } from "./resolve-futures.ts";
import type { Progress } from "./types.ts";
import { version } from "./version.ts";

export interface RobustOptions {
  readonly solvers: Solvers;
  /** The engine where left out. */
  readonly yearSolver?: YearSolver;
  readonly onProgress?: (progress: Progress) => void;
  readonly shouldStop?: () => boolean;
}

/** One set of sizes for all possible years of a study. @throws StoppedError */
export function robustStudy({ own, years, findings }: ResolvedFutures, options: RobustOptions): RobustSizing {
  const { solvers, yearSolver = "interior-point", onProgress, shouldStop } = options;
  onProgress?.({ doing: "Sun and collectors, hour by hour", share: 0 });
  const { solver, remarks } = yearSolving(solvers, yearSolver);
  const models = years.map(({ future: { id, name, probability }, resolved }) => ({
    id,
    name,
    probability,
    model: plantModel(resolved),
  }));
  const sizing = robustSizes(plantModel(own), models, {
    solver,
    version,
    ...(onProgress === undefined
      ? {}
      : { onProgress: (doing, share) => onProgress({ doing, share: 0.02 + 0.98 * share }) }),
    ...(shouldStop === undefined ? {} : { shouldStop }),
  });
  return {
    ...sizing,
    answer: { ...sizing.answer, findings: [...findings.map(tell), ...remarks, ...sizing.answer.findings] },
  };
}
