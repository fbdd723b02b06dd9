import { drawCurve } from "../../app/draw-curve.ts";
import { planTwoDays } from "../../app/plan-two-days.ts";
import { resolveStudy } from "../../app/resolve-study.ts";
import { sizeStudy } from "../../app/size-study.ts";
import type { Progress } from "../../app/types.ts";
import type { Solvers } from "../../core/study/sizing/solvers.ts";
import type { Work, WorkAnswer } from "./work.ts";

export interface WorkHands {
  readonly solvers: Solvers;
  readonly onProgress: (progress: Progress) => void;
  readonly shouldStop: () => boolean;
}

/** Does a piece of long work from a study's own files. @throws StoppedError where it was asked to stop */
export function workOn(work: Work, { solvers, onProgress, shouldStop }: WorkHands): WorkAnswer {
  const resolved = resolveStudy(work.bundle);
  if (!resolved.ok) return { kind: "refused", problems: resolved.problems };
  if (work.kind === "curve") {
    const curve = drawCurve(resolved.value, { sizes: work.sizes, solvers, onProgress, shouldStop });
    return { kind: "curve", curve };
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
