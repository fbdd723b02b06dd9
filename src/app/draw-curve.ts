import { areaCurve } from "../core/study/area-curve.ts";
import { plantModel } from "../core/study/plant-model.ts";
import { newSizesOf } from "../core/study/report/new-sizes.ts";
import type { AreaCurve, Sizes } from "../core/study/result.ts";
import { dispatchAt } from "../core/study/sizing/dispatch-at.ts";
import type { Solvers } from "../core/study/sizing/solvers.ts";
import type { Progress, ResolvedStudy } from "./types.ts";

export interface CurveRequest {
  /** Sizes that count as the optimum, as a result gives them. */
  readonly sizes: Sizes;
  readonly solvers: Solvers;
  readonly onProgress?: (progress: Progress) => void;
  readonly shouldStop?: () => boolean;
}

/** The area curve of a study around given sizes. */
export function drawCurve(resolved: ResolvedStudy, request: CurveRequest): AreaCurve {
  const { onProgress, shouldStop, solvers } = request;
  const model = plantModel(resolved);
  onProgress?.({ doing: "Area curve: the optimum", share: 0 });
  const optimum = dispatchAt(model.problem, newSizesOf(model, request.sizes), solvers.exact);
  return areaCurve(model, optimum, {
    solver: solvers.exact,
    ...(onProgress === undefined ? {} : { onProgress: (doing, share) => onProgress({ doing, share }) }),
    ...(shouldStop === undefined ? {} : { shouldStop }),
  });
}
