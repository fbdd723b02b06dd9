export type Delimiter = "," | ";" | "\t";

/** Looked at in this order, since a decimal comma makes the comma look steady too. */
const candidates: readonly Delimiter[] = ["\t", ";", ","];
const steadyShare = 0.8;

/**
 * The column separator: the first of tab, semicolon, comma that stands equally often (outside quotes)
 * in four fifths of the first 60 lines; else the one that is steady in most lines; null for one column.
 */
export function findDelimiter(text: string): Delimiter | null {
  const lines = text
    .slice(0, 40_000)
    .split(/\r\n|\n|\r/, 61)
    .slice(0, 60)
    .filter((line) => line.trim() !== "");
  if (lines.length === 0) return null;
  const shares = candidates.map((sign) => steady(lines, sign) / lines.length);
  const first = shares.findIndex((share) => share >= steadyShare);
  if (first >= 0) return candidates[first]!;
  const best = Math.max(...shares);
  return best > 0 ? candidates[shares.indexOf(best)]! : null;
}

/** Lines that hold the sign as often as most lines that hold it do. */
function steady(lines: readonly string[], sign: Delimiter): number {
  const tally = new Map<number, number>();
  for (const line of lines) {
    const count = line.replace(/"[^"]*"/g, "").split(sign).length - 1;
    if (count > 0) tally.set(count, (tally.get(count) ?? 0) + 1);
  }
  return Math.max(0, ...tally.values());
}
