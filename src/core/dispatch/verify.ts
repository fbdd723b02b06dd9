import type { LinearProgram } from "./program.ts";

/** What an answer is worth, recomputed from the program's own numbers. */
export interface Verification {
  /** cost·x. */
  readonly objective: number;
  /** Largest violation of a row or a bound, in the row's own unit. */
  readonly primalResidual: number;
  /** Largest reduced cost that points the wrong way; null without duals. */
  readonly dualResidual: number | null;
  /** |primal − dual objective| / (1 + |primal objective|); null without duals. */
  readonly relativeGap: number | null;
}

/** Largest finite right-hand side or bound, at least 1: what a residual is small against. */
export function scaleOf({ rowLower, rowUpper, colLower, colUpper }: LinearProgram): number {
  let scale = 1;
  for (const bounds of [rowLower, rowUpper, colLower, colUpper])
    for (const value of bounds) if (Number.isFinite(value)) scale = Math.max(scale, Math.abs(value));
  return scale;
}

/**
 * Checks a primal and a dual answer against a program by the definitions alone; it shares nothing
 * with any solver. The dual objective takes, for every row and column, the bound that its multiplier
 * leans on; where that bound is infinite the multiplier itself is a dual residual.
 */
export function verify(
  program: LinearProgram,
  primal: Float64Array,
  rowDual: Float64Array | null,
): Verification {
  const { columns, rows, cost, starts, indices, values, colLower, colUpper, rowLower, rowUpper } = program;
  const activity = new Float64Array(rows);
  let objective = 0;
  let primalResidual = 0;
  for (let j = 0; j < columns; j += 1) {
    const x = primal[j];
    objective += cost[j] * x;
    primalResidual = Math.max(primalResidual, colLower[j] - x, x - colUpper[j]);
    for (let e = starts[j]; e < starts[j + 1]; e += 1) activity[indices[e]] += values[e] * x;
  }
  for (let i = 0; i < rows; i += 1) {
    primalResidual = Math.max(primalResidual, rowLower[i] - activity[i], activity[i] - rowUpper[i]);
  }
  if (rowDual === null) return { objective, primalResidual, dualResidual: null, relativeGap: null };

  let dualObjective = 0;
  let dualResidual = 0;
  const lean = (multiplier: number, lower: number, upper: number) => {
    const bound = multiplier > 0 ? lower : upper;
    if (multiplier === 0) return;
    if (Number.isFinite(bound)) dualObjective += multiplier * bound;
    else dualResidual = Math.max(dualResidual, Math.abs(multiplier));
  };
  for (let i = 0; i < rows; i += 1) lean(rowDual[i], rowLower[i], rowUpper[i]);
  for (let j = 0; j < columns; j += 1) {
    let reduced = cost[j];
    for (let e = starts[j]; e < starts[j + 1]; e += 1) reduced -= rowDual[indices[e]] * values[e];
    lean(reduced, colLower[j], colUpper[j]);
  }
  const relativeGap = Math.abs(objective - dualObjective) / (1 + Math.abs(objective));
  return { objective, primalResidual, dualResidual, relativeGap };
}
