import {
  type BoundTarget,
  boundPoint,
  type CurveBasis,
  type FoundBound,
  missingBound,
  replayCurve,
  withBoundPoint,
} from "../core/study/area-curve.ts";
import { type PlantModel, plantModel } from "../core/study/plant-model.ts";
import { newSizesOf } from "../core/study/report/new-sizes.ts";
import { atTruePrices } from "../core/study/repriced.ts";
import type { AreaCurve } from "../core/study/result.ts";
import { type Solvers, type YearSolver, yearSolving } from "../core/study/sizing/solvers.ts";
import type { Progress, ResolvedStudy } from "./types.ts";

export interface CurveRequest {
  /** A result of the same study, whose sizes count as the optimum. */
  readonly result: CurveBasis;
  readonly solvers: Solvers;
  /** Of the bound; the engine where left out. */
  readonly yearSolver?: YearSolver;
  readonly onProgress?: (progress: Progress) => void;
  /** Called with the lines by replay at once, then with each point of the bound that was found. */
  readonly onCurve?: (curve: AreaCurve) => void;
  readonly shouldStop?: () => boolean;
}

/** The area curve of a study around a result. @throws StoppedError; `onCurve` had what was found before */
export function drawCurve(resolved: ResolvedStudy, request: CurveRequest): AreaCurve {
  const { result, onProgress, onCurve, shouldStop } = request;
  onProgress?.({ doing: "Area curve: the simple controller at sixty sizes", share: 0.02 });
  const model = plantModel(resolved);
  let curve = replayCurve(model, result, shouldStop);
  onCurve?.(curve);
  const targets = missingBound(curve);
  const remarks = findBound(model, targets, {
    ...request,
    onFound: (found, done) => {
      curve = withBoundPoint(curve, found);
      onCurve?.(curve);
      onProgress?.(boundProgress(done, targets.length));
    },
  });
  return { ...curve, remarks };
}

/** The lines by replay alone: the curve before its bound. @throws StoppedError */
export function drawLines(
  resolved: ResolvedStudy,
  result: CurveBasis,
  shouldStop?: () => boolean,
): AreaCurve {
  return replayCurve(plantModel(resolved), result, shouldStop);
}

export interface BoundRequest extends Omit<CurveRequest, "onCurve"> {
  readonly targets: readonly BoundTarget[];
  readonly onFound: (found: FoundBound) => void;
}

/** Some points of a curve's bound, one after the other. @returns remarks on them @throws StoppedError */
export function drawBound(resolved: ResolvedStudy, request: BoundRequest): readonly string[] {
  return findBound(plantModel(resolved), request.targets, request);
}

export function boundProgress(done: number, count: number): Progress {
  return { doing: `Area curve: the bound, ${done} of ${count} points`, share: 0.1 + (0.9 * done) / count };
}

interface Finding extends Pick<CurveRequest, "result" | "solvers" | "yearSolver" | "shouldStop"> {
  readonly onFound: (found: FoundBound, done: number) => void;
}

function findBound(model: PlantModel, targets: readonly BoundTarget[], finding: Finding): readonly string[] {
  const { result, solvers, yearSolver = "interior-point", shouldStop, onFound } = finding;
  const { solver, remarks } = yearSolving(solvers, yearSolver);
  const priced = atTruePrices(model, newSizesOf(model, result.sizes));
  const watched = shouldStop === undefined ? {} : { shouldStop };
  targets.forEach((target, index) => {
    onFound({ target, point: boundPoint(priced, result, target, solver, watched) }, index + 1);
  });
  return remarks;
}
