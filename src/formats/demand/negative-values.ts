import type { QualityFinding } from "../../core/demand/quality/quality-report.ts";
import { rowList } from "../../core/demand/quality/row-list.ts";
import type { Problem } from "../../core/problem.ts";
import type { DemandQuantity } from "./account.ts";
import { rowProblems, shorten } from "./demand-problems.ts";

/** Values below zero: faults of a demand, remarks of a price. `cells` are the rows' texts. */
export function negativeValues(
  value: Float64Array,
  cells: readonly string[],
  line: ArrayLike<number>,
  quantity: DemandQuantity,
  place: { readonly file: string; readonly column: string | undefined },
): { readonly problems: readonly Problem[]; readonly findings: readonly QualityFinding[] } {
  const below = Array.from(value.keys()).filter((i) => value[i] < 0);
  if (below.length === 0) return { problems: [], findings: [] };
  if (quantity === "power" || quantity === "mass-flow" || quantity === "volume-flow") {
    const problems = rowProblems({
      code: "DEMAND_NEGATIVE",
      ...place,
      faults: below.map((i) => ({ row: line[i]!, found: cells[i]! })),
      one: (cell) =>
        `${shorten(cell)} is negative; a demand must be 0 or more, and a missing value an empty cell.`,
      many: "are negative, while a demand must be 0 or more and a missing value an empty cell",
    });
    return { problems, findings: [] };
  }
  const lines = below.map((i) => line[i]!);
  const [first, last] = [lines[0]!, lines[lines.length - 1]!];
  return {
    problems: [],
    findings: [
      {
        kind: "negative",
        sentence: `${below.length} rows are negative and were kept: ${rowList(lines)}.`,
        rows: { from: Math.min(first, last), to: Math.max(first, last) },
        from: null,
        to: null,
        count: below.length,
      },
    ],
  };
}
