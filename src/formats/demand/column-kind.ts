import { isMissing, looksLikeNumber } from "./read-number.ts";
import { readStamp, readTimeOfDay } from "./read-stamp.ts";

export type CellKind = "stamp" | "date" | "time" | "number" | "empty" | "text";

/** What more than half of a column's filled cells are; a column of dates and stamps holds stamps. */
export function columnKind(sample: readonly string[][], column: number): CellKind {
  const tally: Record<CellKind, number> = { stamp: 0, date: 0, time: 0, number: 0, empty: 0, text: 0 };
  for (const row of sample) tally[cellKind(row[column]!)] += 1;
  const filled = sample.length - tally.empty;
  if (filled === 0) return "empty";
  if (tally.stamp > 0 && tally.stamp + tally.date > filled * 0.5) return "stamp";
  const kinds = ["date", "time", "number"] as const;
  return kinds.find((kind) => tally[kind] > filled * 0.5) ?? "text";
}

function cellKind(cell: string): CellKind {
  if (isMissing(cell)) return "empty";
  const stamp = readStamp(cell);
  // Eight digits can be a plain number as well, so a dense date must carry a time or a column of its own.
  if (stamp !== null) return stamp.time_ms === null ? "date" : "stamp";
  if (looksLikeNumber(cell)) return "number";
  return readTimeOfDay(cell) === null ? "text" : "time";
}
