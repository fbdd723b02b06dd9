import type { Replays, Result } from "../core/study/result.ts";

/** The replays of an answer; null where none was run, or where an earlier version kept less of them. */
export function replaysIn(result: Result): Replays | null {
  const replay = result.replay ?? null;
  return replay?.simple.money === undefined ? null : replay;
}

/**
 * The result with what may be promised: where the plant was replayed, the simple controller's year,
 * months, networks and money stand in place of those of perfect foresight. Sizes, limits, prices and
 * proof stay the program's.
 */
export function promisedResult(result: Result): Result {
  const simple = replaysIn(result)?.simple;
  if (simple === undefined) return result;
  const { annual, cold, networks, months, levelised, money } = simple;
  return { ...result, annual, cold: cold ?? [], networks, months, levelised, money };
}
