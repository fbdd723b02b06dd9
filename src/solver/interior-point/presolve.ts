import type { LinearProgram } from "../../core/dispatch/program.ts";

/**
 * A program in the form that the method works on: columns 0 ≤ x ≤ upper, rows A·x + slack = rhs with
 * 0 ≤ slack ≤ slackUpper, and no slack in an equation (slackUpper 0).
 */
export interface BoundedProgram {
  readonly columns: number;
  readonly rows: number;
  readonly starts: Int32Array;
  readonly indices: Int32Array;
  readonly values: Float64Array;
  readonly cost: Float64Array;
  readonly upper: Float64Array;
  readonly rhs: Float64Array;
  readonly slackUpper: Float64Array;
  /** Block of each column, −1 for one that blocks share. */
  readonly block: Int32Array;
  /** Where it came from: x_source = base_source + Σ sign · x. */
  readonly columnSource: Int32Array;
  readonly columnSign: Float64Array;
  readonly base: Float64Array;
  readonly rowSource: Int32Array;
  readonly rowSign: Float64Array;
}

export type Presolved = BoundedProgram | "infeasible" | "unbounded";

/** Bounds closer than this, relative to their size, hold a column fixed. */
const sameBound = 1e-13;
const rowTolerance = 1e-9;

const isSame = (lower: number, upper: number) =>
  Number.isFinite(lower) && upper - lower <= sameBound * Math.min(Math.abs(lower), Math.abs(upper));

/**
 * Takes fixed and empty columns and empty or free rows out of a program, moves every lower bound to
 * zero, turns ≥ rows round and splits free columns in two.
 */
export function presolve(program: LinearProgram): Presolved {
  const { columns, cost, colLower, colUpper, starts } = program;
  const base = new Float64Array(columns);
  const kept: { source: number; sign: number; upper: number }[] = [];
  for (let j = 0; j < columns; j += 1) {
    const lower = colLower[j];
    const upper = colUpper[j];
    if (!(lower <= upper)) return "infeasible";
    if (isSame(lower, upper)) base[j] = lower;
    else if (starts[j] === starts[j + 1]) {
      base[j] = cost[j] > 0 ? lower : cost[j] < 0 ? upper : Math.min(Math.max(0, lower), upper);
      if (!Number.isFinite(base[j])) return "unbounded";
    } else if (Number.isFinite(lower)) {
      base[j] = lower;
      kept.push({ source: j, sign: 1, upper: upper - lower });
    } else if (Number.isFinite(upper)) {
      base[j] = upper;
      kept.push({ source: j, sign: -1, upper: Number.POSITIVE_INFINITY });
    } else {
      kept.push({ source: j, sign: 1, upper: Number.POSITIVE_INFINITY });
      kept.push({ source: j, sign: -1, upper: Number.POSITIVE_INFINITY });
    }
  }
  const rows = keepRows(program, base, kept);
  if (rows === null) return "infeasible";
  return { ...rows, ...keepColumns(program, kept, rows), base };
}

function keepRows(program: LinearProgram, base: Float64Array, kept: readonly { source: number }[]) {
  const { starts, indices, values, rowLower, rowUpper } = program;
  const held = new Float64Array(program.rows);
  const used = new Uint8Array(program.rows);
  for (let j = 0; j < program.columns; j += 1) {
    if (base[j] === 0) continue;
    for (let e = starts[j]; e < starts[j + 1]; e += 1) held[indices[e]] += values[e] * base[j];
  }
  for (const { source: j } of kept) {
    for (let e = starts[j]; e < starts[j + 1]; e += 1) used[indices[e]] = 1;
  }
  const newRow = new Int32Array(program.rows).fill(-1);
  const source: number[] = [];
  const sign: number[] = [];
  const rhs: number[] = [];
  const slackUpper: number[] = [];
  for (let i = 0; i < program.rows; i += 1) {
    const lower = rowLower[i] - held[i];
    const upper = rowUpper[i] - held[i];
    if (used[i] === 0) {
      const tolerance = rowTolerance * (1 + Math.abs(held[i]));
      if (lower > tolerance || upper < -tolerance) return null;
      continue;
    }
    if (!(lower <= upper)) return null;
    if (lower === Number.NEGATIVE_INFINITY && upper === Number.POSITIVE_INFINITY) continue;
    newRow[i] = source.length;
    source.push(i);
    const turned = upper === Number.POSITIVE_INFINITY;
    sign.push(turned ? -1 : 1);
    rhs.push(turned ? -lower : upper);
    slackUpper.push(isSame(lower, upper) ? 0 : upper - lower);
  }
  return {
    newRow,
    rows: source.length,
    rowSource: Int32Array.from(source),
    rowSign: Float64Array.from(sign),
    rhs: Float64Array.from(rhs),
    slackUpper: Float64Array.from(slackUpper),
  };
}

function keepColumns(
  program: LinearProgram,
  kept: readonly { source: number; sign: number; upper: number }[],
  { newRow, rowSign }: { readonly newRow: Int32Array; readonly rowSign: Float64Array },
) {
  const starts = new Int32Array(kept.length + 1);
  const indices: number[] = [];
  const values: number[] = [];
  kept.forEach(({ source: j, sign }, n) => {
    for (let e = program.starts[j]; e < program.starts[j + 1]; e += 1) {
      const row = newRow[program.indices[e]];
      if (row < 0) continue;
      indices.push(row);
      values.push(sign * rowSign[row] * program.values[e]);
    }
    starts[n + 1] = indices.length;
  });
  const { blockOfColumn } = program;
  return {
    columns: kept.length,
    starts,
    indices: Int32Array.from(indices),
    values: Float64Array.from(values),
    cost: Float64Array.from(kept, ({ source, sign }) => sign * program.cost[source]),
    upper: Float64Array.from(kept, ({ upper }) => upper),
    block: Int32Array.from(kept, ({ source }) => blockOfColumn?.[source] ?? -1),
    columnSource: Int32Array.from(kept, ({ source }) => source),
    columnSign: Float64Array.from(kept, ({ sign }) => sign),
  };
}
