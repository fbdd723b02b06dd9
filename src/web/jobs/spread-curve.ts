import { boundProgress } from "../../app/draw-curve.ts";
import { type FoundBound, missingBound, withBoundPoint } from "../../core/study/area-curve.ts";
import type { WorkListeners } from "../services.ts";
import type { CurveWork, Work, WorkAnswer } from "./work.ts";
import type { WorkHands } from "./work-on.ts";

/** One piece of work in one thread. */
export type PartRun = (
  work: Work,
  hands: Pick<WorkHands, "onProgress" | "onFound"> & { readonly signal: AbortSignal },
) => Promise<WorkAnswer>;

export interface Spreading extends WorkListeners {
  readonly threads: number;
  readonly run: PartRun;
}

/**
 * An area curve by several threads: its lines in one, then the points of its bound, which do not depend
 * on each other, dealt to all of them. The curve is the same whatever the number of threads.
 *
 * @throws what a thread threw; the other threads are stopped
 */
export async function spreadCurve(work: CurveWork, spreading: Spreading): Promise<WorkAnswer> {
  const { threads, run, onProgress, onCurve, signal } = spreading;
  const { bundle, result } = work;
  onProgress({ doing: "Area curve: the simple controller at sixty sizes", share: 0.02 });
  const drawn = await run({ kind: "curve-lines", bundle, result }, { onProgress, signal });
  if (drawn.kind !== "curve") return drawn;
  let { curve } = drawn;
  onCurve?.(curve);
  const targets = missingBound(curve);
  let done = 0;
  onProgress(boundProgress(done, targets.length));
  const onFound = (found: FoundBound) => {
    curve = withBoundPoint(curve, found);
    done += 1;
    onCurve?.(curve);
    onProgress(boundProgress(done, targets.length));
  };

  const end = new AbortController();
  const both = AbortSignal.any([signal, end.signal]);
  const lanes = Array.from({ length: Math.min(threads, targets.length) }, (_, lane) =>
    targets.filter((_, index) => index % threads === lane),
  );
  try {
    const answers = await Promise.all(
      lanes.map((lane) =>
        run(
          { kind: "curve-bound", bundle, result, targets: lane },
          { onProgress: () => {}, onFound, signal: both },
        ),
      ),
    );
    const remarks = answers.flatMap((answer) => (answer.kind === "curve-bound" ? answer.remarks : []));
    return { kind: "curve", curve: { ...curve, remarks: [...new Set(remarks)] } };
  } finally {
    end.abort();
  }
}
