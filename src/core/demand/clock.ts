import { IANAZone } from "luxon";

/** A stretch of time over which a clock keeps one distance from UTC. */
export interface OffsetSpan {
  readonly from_ms: number;
  readonly until_ms: number;
  readonly offset_min: number;
}

/** Wall-clock times that a clock skips (spring) or shows twice (autumn); ms as if the wall clock were UTC. */
export interface ClockChange {
  readonly kind: "skipped" | "repeated";
  readonly wallFrom_ms: number;
  readonly wallUntil_ms: number;
}

const day_ms = 86_400_000;

/**
 * The offsets of an IANA zone between two instants, in order; the outer spans run on without end.
 * Changes are found to the millisecond; two changes within one day that cancel out are not seen.
 */
export function offsetSpans(timeZone: string, from_ms: number, until_ms: number): OffsetSpan[] {
  const zone = IANAZone.create(timeZone);
  const spans: OffsetSpan[] = [];
  let opened_ms = Number.NEGATIVE_INFINITY;
  let offset_min = zone.offset(from_ms);
  for (let day = from_ms; day < until_ms; day += day_ms) {
    const next = zone.offset(day + day_ms);
    if (next === offset_min) continue;
    let before = day;
    let after = day + day_ms;
    while (after - before > 1) {
      const middle = Math.floor((before + after) / 2);
      if (zone.offset(middle) === offset_min) before = middle;
      else after = middle;
    }
    spans.push({ from_ms: opened_ms, until_ms: after, offset_min });
    opened_ms = after;
    offset_min = next;
  }
  spans.push({ from_ms: opened_ms, until_ms: Number.POSITIVE_INFINITY, offset_min });
  return spans;
}

/** Where a clock skips or repeats wall time, in order. */
export function clockChanges(spans: readonly OffsetSpan[]): ClockChange[] {
  return spans.slice(1).map((after, i) => {
    const before = spans[i]!;
    const old_ms = after.from_ms + before.offset_min * 60_000;
    const new_ms = after.from_ms + after.offset_min * 60_000;
    return new_ms > old_ms
      ? { kind: "skipped" as const, wallFrom_ms: old_ms, wallUntil_ms: new_ms }
      : { kind: "repeated" as const, wallFrom_ms: new_ms, wallUntil_ms: old_ms };
  });
}

/** The instants at which a clock shows `wall_ms`, earliest first: none in a skipped hour, two in a repeated one. */
export function instantsOfWall(wall_ms: number, spans: readonly OffsetSpan[]): number[] {
  const instants: number[] = [];
  for (const span of spans) {
    const instant = wall_ms - span.offset_min * 60_000;
    if (instant >= span.from_ms && instant < span.until_ms) instants.push(instant);
  }
  return instants;
}
