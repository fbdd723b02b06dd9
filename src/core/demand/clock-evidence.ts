import type { ClockChange } from "./clock.ts";

/** What the stamps of a file say about daylight saving, in rows. */
export interface ClockEvidence {
  /** Rows that the skipped wall times would hold if a clock without daylight saving had written them. */
  readonly skippedExpected: number;
  readonly skippedPresent: number;
  /** Rows of the repeated wall times if they stood once. */
  readonly repeatedExpected: number;
  /** Rows beyond the first of each repeated wall time. */
  readonly repeatedTwice: number;
}

/**
 * Counts rows in the wall times that a civil clock skips and repeats. Only changes with a row within
 * three hours on both sides count, so that a gap in the file is not taken for daylight saving.
 */
export function clockEvidence(
  wall_ms: Float64Array,
  changes: readonly ClockChange[],
  step_min: number,
): ClockEvidence {
  const near_ms = 3 * 3_600_000;
  const total = { skippedExpected: 0, skippedPresent: 0, repeatedExpected: 0, repeatedTwice: 0 };
  for (const { kind, wallFrom_ms, wallUntil_ms } of changes) {
    const inside = new Set<number>();
    let rows = 0;
    let before = false;
    let after = false;
    for (const wall of wall_ms) {
      if (wall >= wallFrom_ms && wall < wallUntil_ms) {
        rows += 1;
        inside.add(wall);
      } else if (wall < wallFrom_ms && wall >= wallFrom_ms - near_ms) before = true;
      else if (wall >= wallUntil_ms && wall < wallUntil_ms + near_ms) after = true;
    }
    if (!before || !after) continue;
    const expected = Math.max(1, Math.round((wallUntil_ms - wallFrom_ms) / (step_min * 60_000)));
    if (kind === "skipped") {
      total.skippedExpected += expected;
      total.skippedPresent += rows;
    } else {
      total.repeatedExpected += expected;
      total.repeatedTwice += rows - inside.size;
    }
  }
  return total;
}

/** How the evidence reads; "none" where the file holds no change of the clock. */
export type ClockVerdict = "civil" | "regular" | "skipped-only" | "repeated-only" | "none";

/** `regular`: no row missing in spring, none twice in autumn: standard time, or civil time put in order later. */
export function clockVerdict(evidence: ClockEvidence): ClockVerdict {
  const { skippedExpected, skippedPresent, repeatedExpected, repeatedTwice } = evidence;
  if (skippedExpected + repeatedExpected === 0) return "none";
  const skips = skippedExpected > 0 && skippedPresent * 2 < skippedExpected;
  const repeats = repeatedExpected > 0 && repeatedTwice * 2 > repeatedExpected;
  if (skips && (repeats || repeatedExpected === 0)) return "civil";
  if (repeats && (skips || skippedExpected === 0)) return "civil";
  if (skips) return "skipped-only";
  return repeats ? "repeated-only" : "regular";
}
