import { hourWords } from "./hour-words.ts";
import type { QualityReport } from "./quality-report.ts";

/** One run of hours of the study year that the report speaks of. */
export interface FaultPlace {
  readonly sentence: string;
  /** Hour indices, first and last included, from ≤ to. */
  readonly from: number;
  readonly to: number;
}

export const mostFaultPlaces = 12;

/**
 * The runs of hours of a report, in the order of the year: each finding with hours of its own, and each
 * run of filled hours apart. At most twelve; the second figure counts those left out.
 */
export function faultPlaces(report: QualityReport): { places: FaultPlace[]; leftOut: number } {
  const found = report.findings.flatMap(({ kind, sentence, from, to, count }) =>
    from === null || to === null || kind === "filled" || to < from || count !== to - from + 1
      ? []
      : [{ sentence, from, to }],
  );
  const filled = report.filled.flatMap(({ rule, hours }) =>
    runsOf(hours).map(([from, to]) => ({
      sentence: `${to - from + 1} h filled from ${hourWords(from)}: ${rule}.`,
      from,
      to,
    })),
  );
  const all = [...found, ...filled].sort((a, b) => a.from - b.from);
  return { places: all.slice(0, mostFaultPlaces), leftOut: Math.max(0, all.length - mostFaultPlaces) };
}

function runsOf(hours: readonly number[]): [number, number][] {
  const runs: [number, number][] = [];
  for (const hour of [...hours].sort((a, b) => a - b)) {
    const last = runs[runs.length - 1];
    if (last !== undefined && hour === last[1] + 1) last[1] = hour;
    else runs.push([hour, hour]);
  }
  return runs;
}
