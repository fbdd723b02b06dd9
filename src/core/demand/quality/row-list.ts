/** Row numbers in words, runs shortened: "row 12", "rows 12, 40–52". */
export function rowList(rows: readonly number[]): string {
  const sorted = [...new Set(rows)].sort((a, b) => a - b);
  const parts: string[] = [];
  for (let i = 0; i < sorted.length; i += 1) {
    const first = sorted[i]!;
    while (sorted[i + 1] === sorted[i]! + 1) i += 1;
    const last = sorted[i]!;
    if (last === first) parts.push(`${first}`);
    else parts.push(last === first + 1 ? `${first}, ${last}` : `${first}–${last}`);
  }
  return `${sorted.length === 1 ? "row" : "rows"} ${parts.join(", ")}`;
}
