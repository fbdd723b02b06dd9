import type { LinearProgram } from "../dispatch/program.ts";

/** A state of the first and the last block of a program whose only cycle is to be opened. */
export interface OpenState {
  readonly firstColumn: number;
  readonly lastColumn: number;
  /** What is left in the first block of what there is at the start, in the state's own unit. */
  readonly carried: number;
  /** What a unit is worth at the end. */
  readonly worth: number;
  /** Content to be reached at the end, and the price of each unit that is missing; null for none. */
  readonly target: { readonly content: number; readonly missing_per_unit: number } | null;
}

/**
 * The same program from given contents to free ones: the first block's state no longer looks back at
 * the last block but at what there is.
 */
export function openCycle(program: LinearProgram, states: readonly OpenState[]): LinearProgram {
  const targets = states.filter(({ target }) => target !== null);
  const columns = program.columns + targets.length;
  const rows = program.rows + targets.length;
  const longer = (values: Float64Array, more: readonly number[]) => Float64Array.from([...values, ...more]);
  const cost = longer(
    program.cost,
    targets.map(({ target }) => target?.missing_per_unit ?? 0),
  );
  const rowLower = longer(
    program.rowLower,
    targets.map(({ target }) => target?.content ?? 0),
  );
  const rowUpper = longer(
    program.rowUpper,
    targets.map(() => Number.POSITIVE_INFINITY),
  );
  const lookBack = new Map<number, number>();
  for (const { firstColumn, lastColumn, carried, worth } of states) {
    const row = ownRow(program, firstColumn);
    lookBack.set(lastColumn, row);
    rowLower[row] += carried;
    rowUpper[row] += carried;
    cost[lastColumn] -= worth;
  }
  const targetRow = new Map(targets.map(({ lastColumn }, n) => [lastColumn, program.rows + n]));

  const starts = new Int32Array(columns + 1);
  const indices: number[] = [];
  const values: number[] = [];
  for (let j = 0; j < program.columns; j += 1) {
    const dropped = lookBack.get(j);
    for (let e = program.starts[j]; e < program.starts[j + 1]; e += 1) {
      if (program.indices[e] === dropped) continue;
      indices.push(program.indices[e]);
      values.push(program.values[e]);
    }
    const row = targetRow.get(j);
    if (row !== undefined) {
      indices.push(row);
      values.push(1);
    }
    starts[j + 1] = indices.length;
  }
  targets.forEach((_, n) => {
    indices.push(program.rows + n);
    values.push(1);
    starts[program.columns + n + 1] = indices.length;
  });
  return {
    name: program.name,
    columns,
    rows,
    cost,
    colLower: longer(
      program.colLower,
      targets.map(() => 0),
    ),
    colUpper: longer(
      program.colUpper,
      targets.map(() => Number.POSITIVE_INFINITY),
    ),
    rowLower,
    rowUpper,
    starts,
    indices: Int32Array.from(indices),
    values: Float64Array.from(values),
    columnName: (column) =>
      column < program.columns ? program.columnName(column) : `missing.${column - program.columns}`,
    rowName: (row) => (row < program.rows ? program.rowName(row) : `target.${row - program.rows}`),
  };
}

/** The row that gives a block's state: the one in which its content stands with coefficient 1. */
function ownRow(program: LinearProgram, column: number): number {
  for (let e = program.starts[column]; e < program.starts[column + 1]; e += 1) {
    if (program.values[e] === 1) return program.indices[e];
  }
  throw new Error(`column ${program.columnName(column)} is no state`);
}
