import type { BlockProgram } from "./block-program.ts";
import { Sums } from "./sums.ts";

/** What local columns and limits add to the border once they are eliminated. */
export interface BorderTerms {
  /** Interior rows × border, weighted with θ of a column (and e of a limit). */
  readonly carried: Sums;
  /** Border rows × border rows and sizes × border rows, weighted alike. */
  readonly border: Sums;
  /** Sizes × sizes, weighted with e·H·θ of a limit. */
  readonly corner: Sums;
  /** Two limits on one column: limit, limit, column. */
  readonly pairs: readonly (readonly [number, number, number])[];
}

/** Lists the terms; targets are places in row-major arrays as wide as the border. */
export function borderTerms(p: BlockProgram): BorderTerms {
  const { interior, border: rows, locals, starts, indices, values } = p;
  const width = rows + p.shared;
  const carried = new Sums();
  const border = new Sums();
  const corner = new Sums();
  const pairs: [number, number, number][] = [];
  for (let j = 0; j < locals; j += 1) {
    for (let a = starts[j]; a < starts[j + 1]; a += 1) {
      if (indices[a] < interior) continue;
      const y = indices[a] - interior;
      for (let b = starts[j]; b < starts[j + 1]; b += 1) {
        const value = values[a] * values[b];
        if (indices[b] < interior) carried.add(indices[b] * width + y, value, j);
        else if (indices[b] - interior <= y) border.add(y * width + indices[b] - interior, value, j);
      }
    }
  }
  const limitsOf = limitsOfColumns(p);
  for (let i = 0; i < p.limits; i += 1) {
    const j = p.limitLocal[i];
    for (let q = p.limitStarts[i]; q < p.limitStarts[i + 1]; q += 1) {
      const z = rows + p.limitShared[q];
      const tie = -p.limitValues[q] * p.limitCoefficient[i];
      for (let a = starts[j]; a < starts[j + 1]; a += 1) {
        const k = indices[a];
        if (k < interior) carried.add(k * width + z, tie * values[a], j, i);
        else border.add(z * width + k - interior, tie * values[a], j, i);
      }
      for (let r = p.limitStarts[i]; r < p.limitStarts[i + 1]; r += 1) {
        if (p.limitShared[r] > p.limitShared[q]) continue;
        corner.add(z * width + rows + p.limitShared[r], -p.limitValues[q] * p.limitValues[r], i);
      }
    }
    for (const k of limitsOf[j]) if (k < i) pairs.push([k, i, j]);
  }
  return { carried, border, corner, pairs };
}

function limitsOfColumns(p: BlockProgram): number[][] {
  const lists: number[][] = [];
  for (let i = 0; i < p.limits; i += 1) {
    const j = p.limitLocal[i];
    lists[j] ??= [];
    lists[j].push(i);
  }
  return lists;
}
