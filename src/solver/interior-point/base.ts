import type { LinearProgram } from "../../core/dispatch/program.ts";

/** Value of a column whose part in the method is zero: the bound that it is counted from. */
export function baseOf({ cost, colLower, colUpper, starts }: LinearProgram, column: number): number {
  const lower = colLower[column];
  const upper = colUpper[column];
  if (starts[column] === starts[column + 1]) {
    return cost[column] > 0 ? lower : cost[column] < 0 ? upper : Math.min(Math.max(0, lower), upper);
  }
  if (lower > Number.NEGATIVE_INFINITY) return lower;
  return upper < Number.POSITIVE_INFINITY ? upper : 0;
}
