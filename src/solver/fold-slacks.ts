import type { LinearProgram } from "../core/dispatch/program.ts";

/** A program in which some columns have become the slack of their row. */
export interface FoldedProgram extends LinearProgram {
  /** 1 for a column that was folded away. */
  readonly isGone: Uint8Array;
  /** Fills in the folded columns of a solution. */
  unfold(primal: Float64Array): Float64Array;
}

/**
 * Turns each equation that has a column of its own (found in no other row, from 0 to infinity, such
 * as backup heat) into an inequality, with the column as its slack: one column and half an equation
 * less for a solver that keeps a dense tableau. The column's cost moves to the others of the row.
 */
export function foldSlacks(program: LinearProgram): FoldedProgram {
  const { columns, rows, starts, indices, values } = program;
  const isGone = new Uint8Array(columns);
  const cost = program.cost.slice();
  const rowLower = program.rowLower.slice();
  const rowUpper = program.rowUpper.slice();
  const slackOf = new Int32Array(rows).fill(-1);

  for (let j = 0; j < columns; j += 1) {
    if (starts[j + 1] - starts[j] !== 1) continue;
    if (program.colLower[j] !== 0 || program.colUpper[j] !== Number.POSITIVE_INFINITY) continue;
    const row = indices[starts[j]];
    if (program.rowLower[row] !== program.rowUpper[row] || slackOf[row] >= 0) continue;
    slackOf[row] = j;
    isGone[j] = 1;
  }
  for (let row = 0; row < rows; row += 1) {
    const slack = slackOf[row];
    if (slack < 0) continue;
    // Σ a·x + v·s = r with s ≥ 0: the rest lies below r where v > 0, above it where v < 0.
    if (values[starts[slack]] > 0) rowLower[row] = Number.NEGATIVE_INFINITY;
    else rowUpper[row] = Number.POSITIVE_INFINITY;
  }
  for (let j = 0; j < columns; j += 1) {
    if (isGone[j] === 1) continue;
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const slack = slackOf[indices[e]];
      if (slack >= 0) cost[j] -= (program.cost[slack] / values[starts[slack]]) * values[e];
    }
  }

  const unfold = (primal: Float64Array) => {
    const full = primal.slice();
    const activity = new Float64Array(rows);
    for (let j = 0; j < columns; j += 1) {
      if (isGone[j] === 1) continue;
      for (let e = starts[j]; e < starts[j + 1]; e += 1) activity[indices[e]] += values[e] * full[j];
    }
    for (let row = 0; row < rows; row += 1) {
      const slack = slackOf[row];
      if (slack < 0) continue;
      full[slack] = Math.max(0, (program.rowLower[row] - activity[row]) / values[starts[slack]]);
    }
    return full;
  };
  return { ...program, cost, rowLower, rowUpper, isGone, unfold };
}
