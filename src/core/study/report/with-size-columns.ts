import { type Formulation, formulate } from "../../dispatch/formulate.ts";
import type { LinearProgram } from "../../dispatch/program.ts";
import type { Duals } from "./unit-worth.ts";

/**
 * The same answer with a column for every size, so that fixed sizes have a price as well. A program leaves
 * the column of a fixed size out and bounds the hourly columns instead; what such a bound is worth there is
 * the dual of the limit's row here. All other rows keep their duals, by name.
 */
export function withSizeColumns(duals: Duals): Duals {
  const { formulation } = duals;
  const { sizes } = formulation.layout;
  if (Object.values(sizes).every((columns) => columns.every((column) => column >= 0))) return duals;
  const full = formulate(formulation.problem, { keepSizeColumns: true });
  const { program } = full;
  const rowDual = moved(rowNames(program), rowNames(formulation.program), duals.rowDual, Number.NaN);
  const isNew = Uint8Array.from(rowDual, (dual) => (Number.isNaN(dual) ? 1 : 0));
  for (let i = 0; i < rowDual.length; i += 1) if (isNew[i] === 1) rowDual[i] = 0;
  const primal = moved(columnNames(program), columnNames(formulation.program), duals.primal, 0);
  placeSizes(full, duals, primal);
  priceLimits(full, isNew, rowDual, primal);
  return { formulation: full, rowDual, primal, sizes: duals.sizes };
}

const rowNames = (program: LinearProgram) =>
  Array.from({ length: program.rows }, (_, row) => program.rowName(row));
const columnNames = (program: LinearProgram) =>
  Array.from({ length: program.columns }, (_, column) => program.columnName(column));

/** Values by the names of one list in the order of another. */
function moved(
  to: readonly string[],
  from: readonly string[],
  values: Float64Array,
  otherwise: number,
): Float64Array {
  const place = new Map(from.map((name, index) => [name, index]));
  return Float64Array.from(to, (name) => {
    const index = place.get(name);
    return index === undefined ? otherwise : values[index];
  });
}

/**
 * Gives the limit that holds an hourly column down, of several the tightest, the dual that keeps the
 * column from costing less than nothing. A bound of the column's own that is tighter takes it instead.
 */
function priceLimits(
  { program, layout }: Formulation,
  isNew: Uint8Array,
  rowDual: Float64Array,
  primal: Float64Array,
): void {
  const { columns, cost, colUpper, rowUpper, starts, indices, values, structure } = program;
  // What a limit's row allows at the sizes; NaN for all other rows.
  const allowed = new Float64Array(program.rows).fill(Number.NaN);
  for (const family of Object.values(layout.sizes)) {
    for (const size of family) {
      if (size < 0) continue;
      for (let e = starts[size]; e < starts[size + 1]; e += 1) {
        const row = indices[e];
        if (isNew[row] === 0 || (structure?.rowBlock[row] ?? -1) < 0) continue;
        if (Number.isNaN(allowed[row])) allowed[row] = rowUpper[row];
        allowed[row] -= values[e] * primal[size];
      }
    }
  }
  for (let j = 0; j < columns; j += 1) {
    if ((structure?.columnBlock[j] ?? -1) < 0) continue;
    let beside = cost[j];
    let tightest = -1;
    let most = colUpper[j] * (1 - 1e-9);
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const row = indices[e];
      if (Number.isNaN(allowed[row])) beside -= rowDual[row] * values[e];
      else if (allowed[row] / values[e] < most) {
        tightest = e;
        most = allowed[row] / values[e];
      }
    }
    if (tightest >= 0) rowDual[indices[tightest]] = Math.min(0, beside) / values[tightest];
  }
}

function placeSizes({ layout }: Formulation, { sizes }: Duals, primal: Float64Array): void {
  const place = (columns: Int32Array, news: Float64Array) => {
    columns.forEach((column, i) => {
      if (column >= 0) primal[column] = news[i];
    });
  };
  place(layout.sizes.fields, sizes.fields_m2);
  place(layout.sizes.stores, sizes.stores_kWh);
  place(layout.sizes.chargers, sizes.chargers_kW);
  place(layout.sizes.stepDowns, sizes.stepDowns_kW);
  place(layout.sizes.chillers, sizes.chillers_kW);
  place(layout.sizes.backups, sizes.backups_kW);
}
