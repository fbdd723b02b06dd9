import type { NewSizes } from "../../dispatch/case.ts";
import type { Formulation } from "../../dispatch/formulate.ts";

/** The program that gave the sizes, with its shadow prices. */
export interface Duals {
  readonly formulation: Formulation;
  readonly rowDual: Float64Array;
  readonly primal: Float64Array;
  /** New sizes in that program's answer. */
  readonly sizes: NewSizes;
}

/** d objective / d right-hand side of a row that is at most its limit, turned into a saving; ≥ 0. */
export function savingOf({ rowDual }: Duals, row: number): number | null {
  return row < 0 ? null : Math.max(0, -rowDual[row]);
}

/**
 * Annual cost of one more unit in a column, everything else free to follow: cost − Σ dual · entry,
 * from the rows' duals alone. Null where the quantity has no column.
 */
export function reducedCostOf(
  { formulation, rowDual }: Pick<Duals, "formulation" | "rowDual">,
  column: number,
): number | null {
  if (column < 0) return null;
  const { cost, starts, indices, values } = formulation.program;
  let reduced = cost[column];
  for (let e = starts[column]; e < starts[column + 1]; e += 1) reduced -= rowDual[indices[e]] * values[e];
  return reduced;
}

/** The row that ties one collector type's fields on several networks together; −1 where there is none. */
export function sharedRowOf({ program, layout, problem }: Formulation, field: number): number {
  const column = layout.sizes.fields[field];
  if (column < 0) return -1;
  const name = `collector.${problem.collectors[problem.fields[field].collector].id}`;
  const { rowBlock } = program.structure ?? {};
  for (let e = program.starts[column]; e < program.starts[column + 1]; e += 1) {
    const row = program.indices[e];
    if (rowBlock !== undefined && rowBlock[row] >= 0) continue;
    if (program.rowName(row) === name) return row;
  }
  return -1;
}

/** Dual of a row on one unit of a column: what that limit adds to the column's cost a year; 0 without the row. */
export function shareOfRow({ formulation, rowDual }: Duals, column: number, row: number): number {
  if (column < 0 || row < 0) return 0;
  const { starts, indices, values } = formulation.program;
  for (let e = starts[column]; e < starts[column + 1]; e += 1) {
    if (indices[e] === row) return -rowDual[row] * values[e];
  }
  return 0;
}
