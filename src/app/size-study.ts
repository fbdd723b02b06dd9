import { tell } from "../core/problem.ts";
import { plantModel } from "../core/study/plant-model.ts";
import { type Sizing, type SizingOptions, sizePlant } from "../core/study/size-plant.ts";
import type { Solvers, YearSolver } from "../core/study/sizing/solvers.ts";
import type { Method, Progress, ResolvedStudy, SizedStudy } from "./types.ts";
import { version } from "./version.ts";

export interface SizeOptions {
  readonly method: Method;
  readonly solvers: Solvers;
  /** Of the full year's programs; the engine where left out. */
  readonly yearSolver?: YearSolver;
  /** As `SizingOptions.replays`. */
  readonly replays?: NonNullable<SizingOptions["replays"]>;
  readonly onProgress?: (progress: Progress) => void;
  readonly shouldStop?: () => boolean;
}

/** Sizes a study; the sizing holds the very program that was solved, for whoever wants to check it. */
export function sizeStudy(
  resolved: ResolvedStudy,
  options: SizeOptions,
): SizedStudy & { readonly sizing: Sizing } {
  const { onProgress, shouldStop, yearSolver, replays } = options;
  onProgress?.({ doing: "Sun and collectors, hour by hour", share: 0.01 });
  const sizing = sizePlant(plantModel(resolved), {
    method: options.method,
    solvers: options.solvers,
    ...(yearSolver === undefined ? {} : { yearSolver }),
    ...(replays === undefined ? {} : { replays }),
    version,
    remarks: resolved.findings.map(tell),
    ...(onProgress === undefined ? {} : { onProgress: (doing, share) => onProgress({ doing, share }) }),
    ...(shouldStop === undefined ? {} : { shouldStop }),
  });
  return { result: sizing.result, hours: sizing.plan.hours, sizing };
}
