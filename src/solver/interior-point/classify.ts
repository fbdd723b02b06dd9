import type { BoundedProgram } from "./presolve.ts";

/**
 * The order in which the structure is used. Columns: those of one block first, then those that blocks
 * share. Rows: interior ones in elimination order, then those of the border, then limits.
 */
export interface Classes {
  readonly locals: number;
  readonly shared: number;
  readonly interior: number;
  readonly border: number;
  readonly limits: number;
  /** New place → old column or row. */
  readonly columnOrder: Int32Array;
  readonly rowOrder: Int32Array;
}

/** A row with more entries than this in columns of blocks belongs to the border. */
const longRow = 400;

/**
 * Sorts columns and rows by what the linear algebra does with them.
 *
 * A column is local if it belongs to a block or has a single entry. A *limit* is an inequality with
 * one local column: it is eliminated by itself. A *border* row has no local column, or very many. All
 * others are *interior*, ordered by the last block that they touch, those that reach into an earlier
 * block after the rest: states then tie a block to the next alone, a cycle's first state waits for
 * its last block, and a row over a window of hours waits for the window's end.
 */
export function classify(program: BoundedProgram): Classes {
  const { columns, rows, starts, indices, block, slackUpper } = program;
  const isLocal = Uint8Array.from(block, (b, j) => (b >= 0 || starts[j + 1] - starts[j] === 1 ? 1 : 0));
  const count = new Int32Array(rows);
  const first = new Int32Array(rows).fill(0x7fffffff);
  const last = new Int32Array(rows).fill(-1);
  for (let j = 0; j < columns; j += 1) {
    if (isLocal[j] === 0) continue;
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      count[i] += 1;
      if (block[j] < 0) continue;
      first[i] = Math.min(first[i], block[j]);
      last[i] = Math.max(last[i], block[j]);
    }
  }
  const interior: number[] = [];
  const border: number[] = [];
  const limits: number[] = [];
  for (let i = 0; i < rows; i += 1) {
    if (count[i] === 0 || count[i] > longRow) border.push(i);
    else if (count[i] === 1 && slackUpper[i] > 0) limits.push(i);
    else interior.push(i);
  }
  const reaches = (i: number) => (first[i] < last[i] ? 1 : 0);
  interior.sort((a, b) => last[a] - last[b] || reaches(a) - reaches(b) || a - b);
  const local: number[] = [];
  const shared: number[] = [];
  for (let j = 0; j < columns; j += 1) (isLocal[j] === 1 ? local : shared).push(j);
  return {
    locals: local.length,
    shared: shared.length,
    interior: interior.length,
    border: border.length,
    limits: limits.length,
    columnOrder: Int32Array.from([...local, ...shared]),
    rowOrder: Int32Array.from([...interior, ...border, ...limits]),
  };
}
