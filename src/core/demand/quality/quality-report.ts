export type FindingKind =
  | "gap"
  | "double"
  | "counter"
  | "dst-missing"
  | "dst-doubled"
  | "negative"
  | "stuck"
  | "spike"
  | "zero-run"
  | "leap-day"
  | "week-pattern"
  | "filled"
  | "extended"
  | "order"
  | "irregular";

/** Something about a metered year that its owner should know. Findings change nothing. */
export interface QualityFinding {
  readonly kind: FindingKind;
  readonly sentence: string;
  /** File lines, first and last; null where the finding has no rows. */
  readonly rows: { readonly from: number; readonly to: number } | null;
  /** Hour indices, first and last included; null where the finding has no hours. */
  readonly from: number | null;
  readonly to: number | null;
  /** Hours, or rows where the finding is about rows. */
  readonly count: number;
}

export interface QualityReport {
  readonly findings: readonly QualityFinding[];
  readonly filled: readonly { readonly rule: string; readonly hours: readonly number[] }[];
}

/** First and last file line that feeds each hour; 0 where none does. */
export interface HourLines {
  readonly firstLine: Int32Array;
  readonly lastLine: Int32Array;
}

/** A finding about the hours `from` to `to`, with the file lines they came from. */
export function findingAt(
  kind: FindingKind,
  sentence: string,
  hours: { readonly from: number; readonly to: number; readonly count: number },
  lines: HourLines,
): QualityFinding {
  const first = lines.firstLine[hours.from]!;
  const last = lines.lastLine[hours.to]!;
  const rows = first > 0 && last > 0 ? { from: Math.min(first, last), to: Math.max(first, last) } : null;
  return { kind, sentence, rows, ...hours };
}
