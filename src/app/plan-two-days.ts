import { unlimited } from "../core/dispatch/case.ts";
import { plantModel } from "../core/study/plant-model.ts";
import { filmYears } from "../core/study/report/film-years.ts";
import { newSizesOf } from "../core/study/report/new-sizes.ts";
import { twoDayReplay } from "../core/study/report/replays.ts";
import type { ReplayFigures, Result } from "../core/study/result.ts";
import { dispatchAt, nothingNew } from "../core/study/sizing/dispatch-at.ts";
import { type Solvers, yearSolving } from "../core/study/sizing/solvers.ts";
import type { Progress, ResolvedStudy } from "./types.ts";

export interface TwoDayRequest {
  /** The answer whose plant is run. */
  readonly result: Result;
  readonly solvers: Solvers;
  readonly onProgress?: (progress: Progress) => void;
  readonly shouldStop?: () => boolean;
}

/** The plant of an answer run by plans two days ahead, for answers that came without that replay. */
export function planTwoDays(resolved: ResolvedStudy, request: TwoDayRequest): ReplayFigures {
  const { result, solvers, onProgress, shouldStop } = request;
  const watched = shouldStop === undefined ? {} : { shouldStop };
  const model = plantModel(resolved);
  onProgress?.({ doing: "Replay by two-day plans: today's plant", share: 0 });
  const year = yearSolving(solvers, "interior-point").solver;
  const baseline = dispatchAt(unlimited(model.problem), nothingNew(model.problem), year, watched);
  const bound = { sizes: newSizesOf(model, result.sizes), annualCost: result.levelised.annualCost };
  const film = filmYears(model, bound.sizes);
  return twoDayReplay(model, bound, { baseline, film }, solvers.exact, {
    ...watched,
    ...(onProgress === undefined ? {} : { onProgress: (doing, share) => onProgress({ doing, share }) }),
  });
}
