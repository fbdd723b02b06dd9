import type { MessagePort } from "node:worker_threads";
import type { Method, Progress, SizedStudy, StudyBundle, YearSolver } from "../../app/types.ts";
import type { Problem } from "../../core/problem.ts";
import type { BoundTarget, FoundBound } from "../../core/study/area-curve.ts";
import type { AreaCurve, ReplayFigures, Result } from "../../core/study/result.ts";
import type { RobustAnswer } from "../../core/study/robust/robust-answer.ts";

/** A piece of long work, as it is handed to a worker thread. */
export type Work =
  | {
      readonly kind: "size";
      readonly method: Method;
      readonly yearSolver: YearSolver;
      readonly bundle: StudyBundle;
    }
  /** One set of sizes for all possible years. */
  | { readonly kind: "robust"; readonly bundle: StudyBundle }
  /** The two-day plan for an answer that was found before. */
  | { readonly kind: "two-day"; readonly bundle: StudyBundle; readonly result: Result }
  | CurveWork
  /** The curve's lines by replay. */
  | { readonly kind: "curve-lines"; readonly bundle: StudyBundle; readonly result: Result }
  /** Some points of the curve's bound. */
  | {
      readonly kind: "curve-bound";
      readonly bundle: StudyBundle;
      readonly result: Result;
      readonly targets: readonly BoundTarget[];
    };

/** The whole area curve around an answer that was found before. */
export interface CurveWork {
  readonly kind: "curve";
  readonly bundle: StudyBundle;
  readonly result: Result;
}

/** What comes back from it. */
export type WorkAnswer =
  | { readonly kind: "sized"; readonly sized: SizedStudy }
  | { readonly kind: "robust"; readonly robust: RobustAnswer }
  | { readonly kind: "two-day"; readonly twoDay: ReplayFigures }
  | { readonly kind: "curve"; readonly curve: AreaCurve }
  /** The points went out as they were found. */
  | { readonly kind: "curve-bound"; readonly remarks: readonly string[] }
  | { readonly kind: "refused"; readonly problems: readonly Problem[] };

/** What a worker thread is given: the work, a port for its progress and what it finds on the way, and a flag that asks it to stop. */
export interface WorkOrder {
  readonly work: Work;
  readonly port: MessagePort;
  readonly stop: Int32Array;
}

/** Sent through the port. */
export type WorkMessage = Progress | FoundBound;
