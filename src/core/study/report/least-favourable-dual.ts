import type { Duals } from "./unit-worth.ts";

/**
 * The dual of a row at which an entry of a column that is not there yet is worth least.
 *
 * @param isOwn the columns of what is not there
 * @param moved duals chosen before for other rows, which this one must fit
 */
export type LeastFavourableDual = (
  row: number,
  coefficient: number,
  isOwn: (column: number) => boolean,
  moved: ReadonlyMap<number, number>,
) => number;

/** A value is at a bound, or a row at its limit, within this. */
const closeness = 1e-7;

/**
 * Where nothing flows through a row, as in a network at night without demand, its dual is not unique: any
 * value will do that lets no other column in. Of these the one is taken at which an entry of the given
 * sign is worth least, all other rows' duals as they are or were moved before. A row keeps its dual that
 * is slack, that some column between its bounds pins, or that holds a column of another block or of the
 * whole year: moving several such rows could let in a column that they share.
 */
export function leastFavourableDuals({ formulation, rowDual, primal }: Duals): LeastFavourableDual {
  const { program } = formulation;
  const { columns, rows, cost, starts, indices, values, colLower, colUpper, rowLower, rowUpper } = program;
  const { rowBlock, columnBlock } = program.structure ?? {};
  const activity = new Float64Array(rows);
  const begins = new Int32Array(rows + 1);
  for (let j = 0; j < columns; j += 1) {
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      activity[indices[e]] += values[e] * primal[j];
      begins[indices[e] + 1] += 1;
    }
  }
  for (let i = 0; i < rows; i += 1) begins[i + 1] += begins[i];
  const next = begins.slice(0, rows);
  const columnOf = new Int32Array(values.length);
  const entryOf = new Float64Array(values.length);
  for (let j = 0; j < columns; j += 1) {
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const place = next[indices[e]]++;
      columnOf[place] = j;
      entryOf[place] = values[e];
    }
  }
  const near = (value: number, bound: number) =>
    Number.isFinite(bound) && Math.abs(value - bound) <= closeness * (1 + Math.abs(bound));
  const reduced = (column: number, moved: ReadonlyMap<number, number>) => {
    let d = cost[column];
    for (let e = starts[column]; e < starts[column + 1]; e += 1) {
      d -= (moved.get(indices[e]) ?? rowDual[indices[e]]) * values[e];
    }
    return d;
  };

  return (row, coefficient, isOwn, moved) => {
    const given = rowDual[row];
    if (rowBlock === undefined || columnBlock === undefined || rowBlock[row] < 0) return given;
    const isEquation = rowLower[row] === rowUpper[row];
    const atLower = near(activity[row], rowLower[row]);
    const atUpper = near(activity[row], rowUpper[row]);
    if (!isEquation && !atLower && !atUpper) return given;
    let least = isEquation || atUpper ? Number.NEGATIVE_INFINITY : 0;
    let most = isEquation || atLower ? Number.POSITIVE_INFINITY : 0;
    for (let e = begins[row]; e < begins[row + 1]; e += 1) {
      const j = columnOf[e];
      if (columnBlock[j] !== rowBlock[row]) return given;
      if (isOwn(j) || colLower[j] === colUpper[j]) continue;
      const isLow = near(primal[j], colLower[j]);
      if (!isLow && !near(primal[j], colUpper[j])) return given;
      const room = (isLow ? Math.max(0, reduced(j, moved)) : Math.min(0, reduced(j, moved))) / entryOf[e];
      // At its lower bound a column must not come to cost less than nothing; at its upper, not more.
      if (isLow === entryOf[e] > 0) most = Math.min(most, given + room);
      else least = Math.max(least, given + room);
    }
    return coefficient > 0 ? Math.min(least, given) : Math.max(most, given);
  };
}
