import type { StudyCalendar } from "../../core/calendar.ts";
import {
  type ClockChange,
  clockChanges,
  instantsOfWall,
  type OffsetSpan,
  offsetSpans,
} from "../../core/demand/clock.ts";
import { type ClockVerdict, clockEvidence, clockVerdict } from "../../core/demand/clock-evidence.ts";
import type { FindingKind, QualityFinding } from "../../core/demand/quality/quality-report.ts";
import { rowList } from "../../core/demand/quality/row-list.ts";
import type { Question } from "./account.ts";

export interface StampedRows {
  /** Wall clock, ms as if it were UTC; NaN where not understood. */
  readonly wall_ms: Float64Array;
  /** UTC offsets written in the file, minutes; null where it has none. */
  readonly offset_min: Float64Array | null;
  readonly line: Int32Array;
  readonly step_min: number;
  readonly stamp: "start" | "end";
  readonly descending: boolean;
}

export interface PlacedRows {
  /** Start of each row's interval on the study's standard time, ms as if it were UTC; NaN where it has no place. */
  readonly start_ms: Float64Array;
  readonly clock: "standard" | "civil";
  readonly how: string;
  readonly question: Question | null;
  readonly findings: readonly QualityFinding[];
}

/**
 * Brings the rows of a file onto the study's standard time. Daylight saving is that of the file's own
 * year. Of a wall time that civil time shows twice, the row that comes first in time is taken for
 * summer time. Rows at a wall time that civil time skips have no place; they are told and left out.
 */
export function placeRows(
  rows: StampedRows,
  calendar: StudyCalendar,
  said: "standard" | "civil" | undefined,
): PlacedRows {
  const { wall_ms, offset_min, step_min, stamp } = rows;
  const step_ms = step_min * 60_000;
  const standard_ms = calendar.utcOffset_h * 3_600_000;
  const backToStart_ms = stamp === "end" ? step_ms : 0;
  if (offset_min !== null) {
    const start_ms = wall_ms.map((wall, i) => wall - offset_min[i] * 60_000 + standard_ms - backToStart_ms);
    const how = "each stamp carries its UTC offset, which is kept exactly";
    return { start_ms, clock: said ?? "standard", how, question: null, findings: [] };
  }

  const known = wall_ms.filter((wall) => !Number.isNaN(wall));
  const margin_ms = 2 * 86_400_000;
  const least = known.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const most = known.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const spans = offsetSpans(calendar.timeZone, least - margin_ms, most + margin_ms);
  const changes = clockChanges(spans);
  const sameAsStandard = spans.every((span) => span.offset_min * 60_000 === standard_ms);

  // Some loggers write the end as start plus step without looking at the clock again.
  const shifted = wall_ms.map((wall) => wall - step_ms);
  const asWritten = clockVerdict(clockEvidence(wall_ms, changes, step_min));
  const asShifted = stamp === "end" ? clockVerdict(clockEvidence(shifted, changes, step_min)) : asWritten;
  const byStart = stamp === "end" && asWritten !== "civil" && asShifted === "civil";
  const verdict = byStart ? asShifted : asWritten;

  const decided = decide(verdict, said, sameAsStandard, calendar.timeZone);
  if (decided.clock === "standard") {
    return { ...decided, start_ms: wall_ms.map((wall) => wall - backToStart_ms), findings: [] };
  }
  const labels = byStart ? shifted : wall_ms;
  const civil = fromCivil(labels, rows, spans);
  const back_ms = byStart ? 0 : backToStart_ms;
  const start_ms = civil.instant_ms.map((instant) => instant + standard_ms - back_ms);
  return { ...decided, start_ms, findings: clockFindings(labels, rows.line, changes, civil.leftOut) };
}

function fromCivil(labels: Float64Array, rows: StampedRows, spans: readonly OffsetSpan[]) {
  const seen = new Map<number, number>();
  const leftOut: number[] = [];
  const instant_ms = new Float64Array(labels.length).fill(Number.NaN);
  for (let k = 0; k < labels.length; k += 1) {
    const i = rows.descending ? labels.length - 1 - k : k;
    const wall = labels[i];
    if (Number.isNaN(wall)) continue;
    const instants = instantsOfWall(wall, spans);
    if (instants.length === 0) {
      leftOut.push(i);
      continue;
    }
    const before = seen.get(wall) ?? 0;
    seen.set(wall, before + 1);
    instant_ms[i] = instants[Math.min(before, instants.length - 1)]!;
  }
  return { instant_ms, leftOut };
}

function decide(verdict: ClockVerdict, said: "standard" | "civil" | undefined, same: boolean, zone: string) {
  if (said !== undefined) return { clock: said, how: "said by user", question: null };
  if (same) {
    return {
      clock: "standard" as const,
      how: `${zone} keeps standard time over these dates, so both clocks are one`,
      question: null,
    };
  }
  if (verdict === "civil") {
    const how = `the file skips and repeats time as ${zone} does with daylight saving`;
    return { clock: "civil" as const, how, question: null };
  }
  const { taken, sentence } = open[verdict];
  const question: Question = {
    code: "DEMAND_CLOCK",
    sentence,
    field: "clock",
    choices: [
      { value: "standard", sentence: "standard time all year, without daylight saving" },
      { value: "civil", sentence: `the site's civil time (${zone})` },
    ],
    taken,
  };
  return { clock: taken, how: `guessed: ${sentence}`, question };
}

const open = {
  regular: {
    taken: "standard" as const,
    sentence:
      "No time is missing in spring and none is doubled in autumn: the file is in standard time, or in civil time that was put in order afterwards. Which is it?",
  },
  "skipped-only": {
    taken: "civil" as const,
    sentence:
      "The time skipped in spring is missing as in civil time, but the time repeated in autumn stands only once. Is it civil time?",
  },
  "repeated-only": {
    taken: "civil" as const,
    sentence:
      "The time repeated in autumn stands twice as in civil time, but rows also stand at the time skipped in spring. Is it civil time?",
  },
  none: {
    taken: "standard" as const,
    sentence:
      "The file holds no change of the clock by which standard and civil time could be told apart. Which is it?",
  },
};

function clockFindings(
  labels: Float64Array,
  line: Int32Array,
  changes: readonly ClockChange[],
  leftOut: readonly number[],
): QualityFinding[] {
  const findings: QualityFinding[] = [];
  const say = (kind: FindingKind, sentence: string, positions: readonly number[]) => {
    const lines = positions.map((i) => line[i]!);
    const rows = lines.length === 0 ? null : { from: Math.min(...lines), to: Math.max(...lines) };
    findings.push({ kind, sentence, rows, from: null, to: null, count: lines.length });
  };
  const inside = (change: ClockChange) =>
    Array.from(labels.keys()).filter(
      (i) => labels[i] >= change.wallFrom_ms && labels[i] < change.wallUntil_ms,
    );
  const covers = (change: ClockChange) => {
    const near_ms = 3 * 3_600_000;
    return (
      labels.some((wall) => wall < change.wallFrom_ms && wall >= change.wallFrom_ms - near_ms) &&
      labels.some((wall) => wall >= change.wallUntil_ms && wall < change.wallUntil_ms + near_ms)
    );
  };
  for (const change of changes.filter(covers)) {
    const here = inside(change);
    const when = `${words(change.wallFrom_ms)} to ${words(change.wallUntil_ms).slice(11)}`;
    const lines = here.length === 0 ? "" : rowList(here.map((i) => line[i]!));
    if (change.kind === "skipped") {
      const none = `Civil time skips ${when}; the file has no row there, so nothing is missing.`;
      const some = `Civil time skips ${when}, yet the file has ${lines} there; no hour of the year belongs to them and they were left out.`;
      say("dst-missing", here.length === 0 ? none : some, here);
      continue;
    }
    const distinct = new Set(here.map((i) => labels[i])).size;
    const once = `Civil time shows ${when} twice, but the file has ${lines || "no row there"} only once; the second pass is missing. Check whether the row holds the sum of both.`;
    const twice = `Civil time shows ${when} twice; ${lines} were taken in turn, summer time first.`;
    say("dst-doubled", here.length > distinct ? twice : once, here);
  }
  if (leftOut.length > 0 && !findings.some((finding) => finding.kind === "dst-missing")) {
    say(
      "dst-missing",
      `Civil time skips the times of ${rowList(leftOut.map((i) => line[i]!))}; they were left out.`,
      leftOut,
    );
  }
  return findings;
}

const words = (wall_ms: number) => new Date(wall_ms).toISOString().slice(0, 16).replace("T", " ");
