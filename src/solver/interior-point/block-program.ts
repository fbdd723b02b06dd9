import { type Classes, classify } from "./classify.ts";
import type { BoundedProgram } from "./presolve.ts";
import { scaleProgram } from "./scale.ts";

/**
 * A bounded program in the order of its classes, scaled, with a slack variable for each inequality.
 *
 * Rows are numbered interior, border, limits. Variables are numbered local columns, shared columns,
 * slacks. Entries of interior and border rows are kept by columns; a limit is one local column, its
 * coefficient, and its shared columns by rows.
 */
export interface BlockProgram extends Classes {
  readonly columns: number;
  readonly rows: number;
  readonly variables: number;
  readonly starts: Int32Array;
  readonly indices: Int32Array;
  readonly values: Float64Array;
  readonly limitLocal: Int32Array;
  readonly limitCoefficient: Float64Array;
  readonly limitStarts: Int32Array;
  /** Place among the shared columns. */
  readonly limitShared: Int32Array;
  readonly limitValues: Float64Array;
  /** One for each variable. */
  readonly cost: Float64Array;
  readonly upper: Float64Array;
  /** One for each row. */
  readonly rhs: Float64Array;
  /** The row's slack variable, or −1. */
  readonly slack: Int32Array;
  /** x = columnScale · scaled x; y = rowScale · scaled y, by class order. */
  readonly columnScale: Float64Array;
  readonly rowScale: Float64Array;
  /** Objective = objectiveScale · scaled objective. */
  readonly objectiveScale: number;
}

/** Sorts, scales and splits a bounded program. */
export function blockProgram(bounded: BoundedProgram): BlockProgram {
  const classes = classify(bounded);
  const { columnOrder, rowOrder, limits } = classes;
  const generals = classes.interior + classes.border;
  const { columnScale, rowScale, rhsScale, costScale } = scaleProgram(bounded, classes);
  const { columns, rows } = bounded;
  const place = new Int32Array(rows);
  rowOrder.forEach((row, i) => {
    place[row] = i;
  });

  const starts = new Int32Array(columns + 1);
  const indices: number[] = [];
  const values: number[] = [];
  const limitLocal = new Int32Array(limits);
  const limitCoefficient = new Float64Array(limits);
  const limitEntries: [number, number, number][] = [];
  const cost: number[] = [];
  const upper: number[] = [];
  columnOrder.forEach((j, n) => {
    for (let e = bounded.starts[j]; e < bounded.starts[j + 1]; e += 1) {
      const i = place[bounded.indices[e]];
      const value = bounded.values[e] * columnScale[j] * rowScale[bounded.indices[e]];
      if (i < generals) {
        indices.push(i);
        values.push(value);
      } else if (n < classes.locals) {
        limitLocal[i - generals] = n;
        limitCoefficient[i - generals] = value;
      } else limitEntries.push([i - generals, n - classes.locals, value]);
    }
    starts[n + 1] = indices.length;
    cost.push((bounded.cost[j] * columnScale[j]) / costScale);
    upper.push(bounded.upper[j] / (columnScale[j] * rhsScale));
  });
  const slack = new Int32Array(rows).fill(-1);
  rowOrder.forEach((row, i) => {
    if (!(bounded.slackUpper[row] > 0)) return;
    slack[i] = cost.length;
    cost.push(0);
    upper.push((bounded.slackUpper[row] * rowScale[row]) / rhsScale);
  });
  return {
    ...classes,
    columns,
    rows,
    variables: cost.length,
    starts,
    indices: Int32Array.from(indices),
    values: Float64Array.from(values),
    limitLocal,
    limitCoefficient,
    ...byRows(limits, limitEntries),
    cost: Float64Array.from(cost),
    upper: Float64Array.from(upper),
    rhs: Float64Array.from(rowOrder, (row) => (bounded.rhs[row] * rowScale[row]) / rhsScale),
    slack,
    columnScale: Float64Array.from(columnOrder, (j) => columnScale[j] * rhsScale),
    rowScale: Float64Array.from(rowOrder, (row) => rowScale[row] * costScale),
    objectiveScale: rhsScale * costScale,
  };
}

function byRows(limits: number, entries: readonly (readonly [number, number, number])[]) {
  const limitStarts = new Int32Array(limits + 1);
  for (const [row] of entries) limitStarts[row + 1] += 1;
  for (let i = 0; i < limits; i += 1) limitStarts[i + 1] += limitStarts[i];
  const next = limitStarts.slice(0, limits);
  const limitShared = new Int32Array(entries.length);
  const limitValues = new Float64Array(entries.length);
  for (const [row, shared, value] of entries) {
    limitShared[next[row]] = shared;
    limitValues[next[row]] = value;
    next[row] += 1;
  }
  return { limitStarts, limitShared, limitValues };
}

/** out = A·x of the columns, by rows; slacks are not in it. */
export function multiply(p: BlockProgram, x: Float64Array, out: Float64Array): void {
  const { columns, starts, indices, values, limits, limitStarts } = p;
  out.fill(0);
  for (let j = 0; j < columns; j += 1) {
    const value = x[j];
    for (let e = starts[j]; e < starts[j + 1]; e += 1) out[indices[e]] += values[e] * value;
  }
  const first = p.interior + p.border;
  for (let i = 0; i < limits; i += 1) {
    let sum = p.limitCoefficient[i] * x[p.limitLocal[i]];
    for (let e = limitStarts[i]; e < limitStarts[i + 1]; e += 1) {
      sum += p.limitValues[e] * x[p.locals + p.limitShared[e]];
    }
    out[first + i] = sum;
  }
}

/** out = Aᵀ·y by columns. */
export function multiplyTransposed(p: BlockProgram, y: Float64Array, out: Float64Array): void {
  const { columns, starts, indices, values, limits, limitStarts } = p;
  for (let j = 0; j < columns; j += 1) {
    let sum = 0;
    for (let e = starts[j]; e < starts[j + 1]; e += 1) sum += values[e] * y[indices[e]];
    out[j] = sum;
  }
  const first = p.interior + p.border;
  for (let i = 0; i < limits; i += 1) {
    const value = y[first + i];
    out[p.limitLocal[i]] += p.limitCoefficient[i] * value;
    for (let e = limitStarts[i]; e < limitStarts[i + 1]; e += 1) {
      out[p.locals + p.limitShared[e]] += p.limitValues[e] * value;
    }
  }
}
