import { drawBound, drawCurve, drawLines } from "../../app/draw-curve.ts";
import { planTwoDays } from "../../app/plan-two-days.ts";
import { resolveFutures } from "../../app/resolve-futures.ts";
import { resolveStudy } from "../../app/resolve-study.ts";
import { robustStudy } from "../../app/robust-study.ts";
import { sizeStudy } from "../../app/size-study.ts";
import type { Progress } from "../../app/types.ts";
import type { FoundBound } from "../../core/study/area-curve.ts";
import type { AreaCurve } from "../../core/study/result.ts";
import type { Solvers } from "../../core/study/sizing/solvers.ts";
import type { Work, WorkAnswer } from "./work.ts";

export interface WorkHands {
  readonly solvers: Solvers;
  readonly onProgress: (progress: Progress) => void;
  /** Of the whole curve: as it grows. */
  readonly onCurve?: ((curve: AreaCurve) => void) | undefined;
  /** Of a part of its bound: each point. */
  readonly onFound?: (found: FoundBound) => void;
  readonly shouldStop: () => boolean;
}

/** Does a piece of long work from a study's own files. @throws StoppedError where it was asked to stop */
export function workOn(work: Work, hands: WorkHands): WorkAnswer {
  const { solvers, onProgress, onCurve, onFound, shouldStop } = hands;
  if (work.kind === "robust") {
    const futures = resolveFutures(work.bundle);
    if (!futures.ok) return { kind: "refused", problems: futures.problems };
    return { kind: "robust", robust: robustStudy(futures.value, { solvers, onProgress, shouldStop }).answer };
  }
  const resolved = resolveStudy(work.bundle);
  if (!resolved.ok) return { kind: "refused", problems: resolved.problems };
  if (work.kind === "curve") {
    const { result } = work;
    const curve = drawCurve(resolved.value, {
      result,
      solvers,
      onProgress,
      shouldStop,
      ...(onCurve === undefined ? {} : { onCurve }),
    });
    return { kind: "curve", curve };
  }
  if (work.kind === "curve-lines")
    return { kind: "curve", curve: drawLines(resolved.value, work.result, shouldStop) };
  if (work.kind === "curve-bound") {
    const { result, targets } = work;
    const remarks = drawBound(resolved.value, {
      result,
      targets,
      solvers,
      shouldStop,
      onFound: (found) => onFound?.(found),
    });
    return { kind: "curve-bound", remarks };
  }
  if (work.kind === "two-day") {
    const twoDay = planTwoDays(resolved.value, { result: work.result, solvers, onProgress, shouldStop });
    return { kind: "two-day", twoDay };
  }
  // The two-day plan takes longer than the sizing, so it is a piece of work of its own.
  const { result, hours } = sizeStudy(resolved.value, {
    method: work.method,
    yearSolver: work.yearSolver,
    replays: "simple",
    solvers,
    onProgress,
    shouldStop,
  });
  return { kind: "sized", sized: { result, hours } };
}
