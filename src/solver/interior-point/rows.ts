import type { LinearProgram } from "../../core/dispatch/program.ts";
import { baseOf } from "./base.ts";
import { blockOf, type Columns, isSame } from "./columns.ts";

/** What the linear algebra does with a row. */
export const rowClass = { gone: 0, interior: 1, limit: 2, long: 3 } as const;

/**
 * The rows that the method works on, as sign · row (+ slack) = rhs. A *limit* is an inequality with a
 * single column of a block and any sizes; it is eliminated by itself. A *long* row touches no block or
 * many. All others are *interior*: they touch their own block and the one before, or close a cycle.
 */
export interface Rows {
  readonly kind: Uint8Array;
  /** Interior: slot. Long: number. Limits: slot, once `occurrences` has been through. */
  readonly place: Int32Array;
  readonly sign: Int8Array;
  readonly rhs: Float64Array;
  readonly interior: number;
  readonly long: number;
  /** By interior slot: slack slot, −1 where all its rows are equations. */
  readonly slackSlot: readonly number[];
  readonly slots: number;
}

const rowTolerance = 1e-9;

/** Sorts the rows by what they touch. `unsupported` where a row of a block touches another kind of block. */
export function sortRows(program: LinearProgram, columns: Columns): Rows | "infeasible" | "unsupported" {
  const { rows, starts, indices, values, structure } = program;
  const { place: columnPlace } = columns;
  const rhs = new Float64Array(rows);
  const locals = new Uint8Array(rows);
  const used = new Uint8Array(rows);
  const looksBack = new Uint8Array(rows);
  const elsewhere = new Uint8Array(rows);
  const rowBlock = structure?.rowBlock;
  for (let j = 0; j < program.columns; j += 1) {
    const at = baseOf(program, j);
    const isKept = columnPlace[j] >= 0;
    const t = blockOf(program, columns, j);
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      if (at !== 0) rhs[i] += values[e] * at;
      if (!isKept) continue;
      used[i] = 1;
      if (t < 0) continue;
      locals[i] = Math.min(2, locals[i] + 1);
      const own = rowBlock === undefined ? -1 : rowBlock[i];
      if (own < 0 || t === own) continue;
      looksBack[i] = 1;
      if (t < own - 1) elsewhere[i] = 1;
    }
  }

  const kind = new Uint8Array(rows);
  const place = new Int32Array(rows).fill(-1);
  const sign = new Int8Array(rows).fill(1);
  const kinds = kindTable(structure?.rowKind);
  for (let i = 0; i < rows; i += 1) {
    const lower = program.rowLower[i] - rhs[i];
    const upper = program.rowUpper[i] - rhs[i];
    if (used[i] === 0) {
      const tolerance = rowTolerance * (1 + Math.abs(rhs[i]));
      if (lower > tolerance || upper < -tolerance) return "infeasible";
      continue;
    }
    if (!(lower <= upper)) return "infeasible";
    if (lower === Number.NEGATIVE_INFINITY && upper === Number.POSITIVE_INFINITY) continue;
    const turned = upper === Number.POSITIVE_INFINITY;
    sign[i] = turned ? -1 : 1;
    rhs[i] = turned ? -lower : upper;
    const slackWidth = slackWidthOf(program, i);
    if (structure === undefined || structure.rowBlock[i] < 0 || locals[i] === 0) {
      kind[i] = rowClass.long;
      continue;
    }
    if (elsewhere[i] === 1) return "unsupported";
    kind[i] = rowClass.interior;
    const k = structure.rowKind[i];
    if (locals[i] > 1 || looksBack[i] === 1 || slackWidth < Number.POSITIVE_INFINITY) kinds.interior[k] = 1;
    if (looksBack[i] === 1) kinds.back[k] = 1;
    if (slackWidth > 0) kinds.slack[k] = 1;
  }

  // Rows that look back come last, so that only they tie a block to the next.
  const slotOf = new Int32Array(kinds.count).fill(-1);
  let interior = 0;
  for (const back of [0, 1]) {
    for (let k = 0; k < kinds.count; k += 1) {
      if (kinds.interior[k] === 0 || kinds.back[k] !== back) continue;
      slotOf[k] = interior;
      interior += 1;
    }
  }
  const slackSlot: number[] = new Array(interior).fill(-1);
  let slots = columns.slots;
  for (let k = 0; k < kinds.count; k += 1) {
    if (slotOf[k] < 0 || kinds.slack[k] === 0) continue;
    slackSlot[slotOf[k]] = slots;
    slots += 1;
  }
  let long = 0;
  for (let i = 0; i < rows; i += 1) {
    if (kind[i] === rowClass.long) {
      place[i] = long;
      long += 1;
    } else if (kind[i] === rowClass.interior) {
      const slot = slotOf[structure?.rowKind[i] ?? 0];
      if (slot >= 0) place[i] = slot;
      else kind[i] = rowClass.limit;
    }
  }
  return { kind, place, sign, rhs, interior, long, slackSlot, slots };
}

/** Infinity for an inequality, 0 for an equation, between for a range. */
export function slackWidthOf({ rowLower, rowUpper }: LinearProgram, row: number): number {
  return isSame(rowLower[row], rowUpper[row]) ? 0 : rowUpper[row] - rowLower[row];
}

function kindTable(rowKind: Int32Array | undefined) {
  let count = 0;
  if (rowKind !== undefined)
    for (let i = 0; i < rowKind.length; i += 1) count = Math.max(count, rowKind[i] + 1);
  const flags = () => new Uint8Array(count);
  return { count, interior: flags(), back: flags(), slack: flags() };
}
