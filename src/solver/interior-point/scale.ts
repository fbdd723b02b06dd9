import type { Classes } from "./classify.ts";
import type { BoundedProgram } from "./presolve.ts";

export interface Scaling {
  /** By old column and row: scaled A = rowScale · A · columnScale. */
  readonly columnScale: Float64Array;
  readonly rowScale: Float64Array;
  /** Scaled right-hand sides and costs are divided by these. */
  readonly rhsScale: number;
  readonly costScale: number;
}

const passes = 4;
/**
 * Tie-breaks are up to half of the costs by number and penalties up to a third, so that the price of
 * something bought lies at this rank.
 */
const usualShare = 0.6;

/**
 * Brings coefficients, right-hand sides and costs near 1. Interior rows and local columns share out
 * the square roots of their largest entries (Ruiz 2001); a limit follows its local column, a shared
 * column its largest coefficient in a limit or interior row, a border row its largest entry.
 */
export function scaleProgram(program: BoundedProgram, classes: Classes): Scaling {
  const { columns, rows, starts, indices, values, rhs, cost } = program;
  const { columnOrder, rowOrder, locals, interior, border } = classes;
  const columnScale = new Float64Array(columns).fill(1);
  const rowScale = new Float64Array(rows).fill(1);
  const kind = new Uint8Array(rows);
  rowOrder.forEach((row, i) => {
    kind[row] = i < interior ? 0 : i < interior + border ? 1 : 2;
  });
  const local = columnOrder.subarray(0, locals);
  const shared = columnOrder.subarray(locals);

  const rowMost = new Float64Array(rows);
  for (let pass = 0; pass < passes; pass += 1) {
    rowMost.fill(0);
    const columnMost = new Float64Array(columns);
    for (const j of local) {
      for (let e = starts[j]; e < starts[j + 1]; e += 1) {
        const i = indices[e];
        if (kind[i] !== 0) continue;
        const size = Math.abs(values[e]) * columnScale[j] * rowScale[i];
        rowMost[i] = Math.max(rowMost[i], size);
        columnMost[j] = Math.max(columnMost[j], size);
      }
    }
    for (const j of local) if (columnMost[j] > 0) columnScale[j] /= Math.sqrt(columnMost[j]);
    for (let i = 0; i < rows; i += 1) if (rowMost[i] > 0) rowScale[i] /= Math.sqrt(rowMost[i]);
  }
  for (const j of local) {
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      if (kind[indices[e]] === 2) rowScale[indices[e]] = 1 / (Math.abs(values[e]) * columnScale[j]);
    }
  }
  for (const j of shared) {
    let most = 0;
    let mostInBorder = 0;
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const size = Math.abs(values[e]) * rowScale[indices[e]];
      if (kind[indices[e]] === 1) mostInBorder = Math.max(mostInBorder, size);
      else most = Math.max(most, size);
    }
    if (most > 0 || mostInBorder > 0) columnScale[j] = 1 / (most || mostInBorder);
  }
  rowMost.fill(0);
  for (let j = 0; j < columns; j += 1) {
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      rowMost[i] = Math.max(rowMost[i], Math.abs(values[e]) * columnScale[j]);
    }
  }
  for (let i = 0; i < rows; i += 1) if (kind[i] === 1 && rowMost[i] > 0) rowScale[i] = 1 / rowMost[i];

  return {
    columnScale,
    rowScale,
    rhsScale: usualSize(Float64Array.from(rhs, (value, i) => (kind[i] === 1 ? 0 : value * rowScale[i]))),
    costScale: usualSize(Float64Array.from(local, (j) => cost[j] * columnScale[j])),
  };
}

/** A size that most of the non-zero values are near or below; 1 if all are zero. */
function usualSize(values: Float64Array): number {
  const sizes = values.filter((value) => value !== 0).map(Math.abs);
  return sizes.length === 0 ? 1 : sizes.sort()[Math.floor(usualShare * sizes.length)];
}
