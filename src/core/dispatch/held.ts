/** What an answer holds of a quantity in a block: 0 where it has no column. */
export const held = (columns: Int32Array, t: number, x: Float64Array): number =>
  columns[t] < 0 ? 0 : x[columns[t]];
