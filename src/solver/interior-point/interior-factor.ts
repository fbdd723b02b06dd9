import type { BlockProgram } from "./block-program.ts";

/**
 * Pattern of the factor L·D·Lᵀ of the interior rows' normal matrix, found once for a program.
 *
 * Entries of L below the diagonal are kept by columns, then the diagonal: `starts`, `rows` and an
 * array of `entries + size` values. `targets` lists, column by column, where each product of two
 * entries of a column is subtracted.
 */
export interface FactorPattern {
  readonly size: number;
  readonly entries: number;
  readonly starts: Int32Array;
  readonly rows: Int32Array;
  readonly targets: Int32Array;
  /** Sum of pairValue · θ(pairColumn) at pairTarget makes the matrix. */
  readonly pairTarget: Int32Array;
  readonly pairColumn: Int32Array;
  readonly pairValue: Float64Array;
}

/** Finds fill by the elimination tree (George and Liu 1981) in the order of the rows as they stand. */
export function factorPattern(program: BlockProgram): FactorPattern {
  const { interior: size, locals, starts: columnStarts, indices, values } = program;
  const byRow = columnsOfRows(program);
  const columnOfL: Int32Array[] = [];
  const children: number[][] = Array.from({ length: size }, () => []);
  const seen = new Int32Array(size).fill(-1);
  const starts = new Int32Array(size + 1);
  for (let k = 0; k < size; k += 1) {
    const below: number[] = [];
    const see = (i: number) => {
      if (i <= k || seen[i] === k) return;
      seen[i] = k;
      below.push(i);
    };
    for (let q = byRow.starts[k]; q < byRow.starts[k + 1]; q += 1) {
      const j = byRow.columns[q];
      for (let e = columnStarts[j]; e < columnStarts[j + 1]; e += 1) if (indices[e] < size) see(indices[e]);
    }
    for (const child of children[k]) for (const i of columnOfL[child]) see(i);
    const column = Int32Array.from(below).sort();
    columnOfL.push(column);
    if (column.length > 0) children[column[0]].push(k);
    starts[k + 1] = starts[k] + column.length;
  }
  const entries = starts[size];
  const rows = new Int32Array(entries);
  columnOfL.forEach((column, k) => {
    rows.set(column, starts[k]);
  });

  const where = new Int32Array(size);
  let pairs = 0;
  for (let j = 0; j < locals; j += 1) {
    let inside = 0;
    for (let e = columnStarts[j]; e < columnStarts[j + 1]; e += 1) if (indices[e] < size) inside += 1;
    pairs += (inside * (inside + 1)) / 2;
  }
  const pairTarget = new Int32Array(pairs);
  const pairColumn = new Int32Array(pairs);
  const pairValue = new Float64Array(pairs);
  let pair = 0;
  for (let k = 0; k < size; k += 1) {
    where[k] = entries + k;
    for (let p = starts[k]; p < starts[k + 1]; p += 1) where[rows[p]] = p;
    for (let q = byRow.starts[k]; q < byRow.starts[k + 1]; q += 1) {
      const j = byRow.columns[q];
      for (let e = columnStarts[j]; e < columnStarts[j + 1]; e += 1) {
        const i = indices[e];
        if (i < k || i >= size) continue;
        pairTarget[pair] = where[i];
        pairColumn[pair] = j;
        pairValue[pair] = byRow.values[q] * values[e];
        pair += 1;
      }
    }
  }
  return {
    size,
    entries,
    starts,
    rows,
    targets: productTargets(size, entries, starts, rows),
    pairTarget,
    pairColumn,
    pairValue,
  };
}

/** The local columns of each interior row. */
function columnsOfRows({ interior, locals, starts, indices, values }: BlockProgram) {
  const rowStarts = new Int32Array(interior + 1);
  for (let e = 0; e < starts[locals]; e += 1) if (indices[e] < interior) rowStarts[indices[e] + 1] += 1;
  for (let i = 0; i < interior; i += 1) rowStarts[i + 1] += rowStarts[i];
  const next = rowStarts.slice(0, interior);
  const columns = new Int32Array(rowStarts[interior]);
  const rowValues = new Float64Array(rowStarts[interior]);
  for (let j = 0; j < locals; j += 1) {
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      if (i >= interior) continue;
      columns[next[i]] = j;
      rowValues[next[i]] = values[e];
      next[i] += 1;
    }
  }
  return { starts: rowStarts, columns, values: rowValues };
}

function productTargets(size: number, entries: number, starts: Int32Array, rows: Int32Array): Int32Array {
  let products = 0;
  for (let k = 0; k < size; k += 1) {
    const n = starts[k + 1] - starts[k];
    products += (n * (n + 1)) / 2;
  }
  const targets = new Int32Array(products);
  let place = 0;
  for (let k = 0; k < size; k += 1) {
    for (let a = starts[k]; a < starts[k + 1]; a += 1) {
      const i = rows[a];
      targets[place] = entries + i;
      place += 1;
      // Both lists rise and the first is contained in the second.
      let p = starts[i];
      for (let b = a + 1; b < starts[k + 1]; b += 1) {
        while (rows[p] !== rows[b]) p += 1;
        targets[place] = p;
        place += 1;
      }
    }
  }
  return targets;
}

/** Sums the matrix into the factor's storage: A·diag(θ)·Aᵀ + diag(diagonal). */
export function assembleInterior(
  pattern: FactorPattern,
  theta: Float64Array,
  diagonal: Float64Array,
  l: Float64Array,
): void {
  const { size, entries, pairTarget, pairColumn, pairValue } = pattern;
  l.fill(0, 0, entries);
  for (let k = 0; k < size; k += 1) l[entries + k] = diagonal[k];
  for (let q = 0; q < pairTarget.length; q += 1) l[pairTarget[q]] += pairValue[q] * theta[pairColumn[q]];
}

/** A pivot below this share of its diagonal before elimination is rounding, and raised to it. */
const roundingShare = 1e-14;

/**
 * Factors in place and carries `width` border columns along: f becomes L⁻¹·F.
 *
 * @returns false where a pivot is not positive
 */
export function factorInterior(
  pattern: FactorPattern,
  l: Float64Array,
  f: Float64Array,
  width: number,
): boolean {
  const { size, entries, starts, rows, targets } = pattern;
  let q = 0;
  const least = l.slice(entries);
  for (let k = 0; k < size; k += 1) {
    const pivot = Math.max(l[entries + k], roundingShare * least[k]);
    l[entries + k] = pivot;
    if (!(pivot > 0)) return false;
    const from = k * width;
    const end = starts[k + 1];
    for (let a = starts[k]; a < end; a += 1) {
      const factor = l[a] / pivot;
      for (let b = a; b < end; b += 1) {
        l[targets[q]] -= factor * l[b];
        q += 1;
      }
      l[a] = factor;
      subtractScaled(f, rows[a] * width, from, width, factor);
    }
  }
  return true;
}

function subtractScaled(f: Float64Array, to: number, from: number, width: number, factor: number): void {
  for (let c = 0; c < width; c += 1) f[to + c] -= factor * f[from + c];
}

/** x ← L⁻¹·x. */
export function forward({ size, starts, rows }: FactorPattern, l: Float64Array, x: Float64Array): void {
  for (let k = 0; k < size; k += 1) {
    const value = x[k];
    for (let p = starts[k]; p < starts[k + 1]; p += 1) x[rows[p]] -= l[p] * value;
  }
}

/** x ← L⁻ᵀ·x. */
export function backward({ size, starts, rows }: FactorPattern, l: Float64Array, x: Float64Array): void {
  for (let k = size - 1; k >= 0; k -= 1) {
    let value = x[k];
    for (let p = starts[k]; p < starts[k + 1]; p += 1) value -= l[p] * x[rows[p]];
    x[k] = value;
  }
}
