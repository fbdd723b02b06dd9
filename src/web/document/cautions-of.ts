import type { Study } from "../../core/study/schema/study.ts";

/** waits for src/core/summary/cautions.ts */
export function cautionsOf(_study: Study): readonly { heading: string; sentences: readonly string[] }[] {
  return [];
}
