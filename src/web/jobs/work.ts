import type { Method, Progress, SizedStudy, StudyBundle } from "../../app/types.ts";
import type { Problem } from "../../core/problem.ts";
import type { AreaCurve } from "../../core/study/result.ts";

/** A piece of long work, as it is handed to a worker thread. */
export type Work =
  | { readonly kind: "size"; readonly method: Method; readonly bundle: StudyBundle }
  | { readonly kind: "curve"; readonly bundle: StudyBundle };

/** What comes back from it. */
export type WorkAnswer =
  | { readonly kind: "sized"; readonly sized: SizedStudy }
  | { readonly kind: "curve"; readonly curve: AreaCurve }
  | { readonly kind: "refused"; readonly problems: readonly Problem[] };

export type WorkMessage = Progress;
