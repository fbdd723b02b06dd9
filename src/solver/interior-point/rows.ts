import type { LinearProgram } from "../../core/dispatch/program.ts";
import { baseOf } from "./base.ts";
import { blockOf, type Columns, isSame } from "./columns.ts";
import { stretches } from "./stretches.ts";

/** What the linear algebra does with a row. */
export const rowClass = { gone: 0, interior: 1, limit: 2, long: 3 } as const;

/**
 * The rows that the method works on, as sign · row (+ slack) = rhs. A *limit* is an inequality with a
 * single column of a block and any sizes; it is eliminated by itself. A *long* row touches no block or
 * many. All others are *interior*: they touch their own block and the one before, or close a cycle.
 */
export class Rows {
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

  constructor(fields: Rows) {
    this.kind = fields.kind;
    this.place = fields.place;
    this.sign = fields.sign;
    this.rhs = fields.rhs;
    this.interior = fields.interior;
    this.long = fields.long;
    this.slackSlot = fields.slackSlot;
    this.slots = fields.slots;
  }
}

const rowTolerance = 1e-9;

/** Sorts the rows by what they touch. `unsupported` where a row of a block touches another kind of block. */
export function sortRows(program: LinearProgram, columns: Columns): Rows | "infeasible" | "unsupported" {
  const sorting = new RowSorting(program, columns);
  stretches(program.columns, (from, to) => sorting.meetColumns(from, to));
  stretches(program.rows, (from, to) => sorting.classifyRows(from, to));
  return sorting.failure ?? sorting.place(columns.slots);
}

/**
 * The work row by row. Classes and small methods, here and in what follows: V8 compiles a method that
 * is called often once for all, but a long loop anew each time it is entered; and it throws away what
 * was compiled for the first object of a literal when the literal makes its second.
 */
class RowSorting {
  failure: "infeasible" | "unsupported" | null = null;
  private readonly program: LinearProgram;
  private readonly columns: Columns;
  private readonly starts: Int32Array;
  private readonly indices: Int32Array;
  private readonly values: Float64Array;
  private readonly rowBlock: Int32Array;
  private readonly rowKind: Uint16Array;
  private readonly locals: Uint8Array;
  private readonly used: Uint8Array;
  private readonly looksBack: Uint8Array;
  private readonly elsewhere: Uint8Array;
  private readonly kind: Uint8Array;
  private readonly sign: Int8Array;
  private readonly rhs: Float64Array;
  /** By kind of row: whether one is interior, looks back, has a slack. */
  private readonly isInterior: Uint8Array;
  private readonly isBack: Uint8Array;
  private readonly isSlack: Uint8Array;

  constructor(program: LinearProgram, columns: Columns) {
    const { rows, starts, indices, values, structure } = program;
    this.program = program;
    this.columns = columns;
    this.starts = starts;
    this.indices = indices;
    this.values = values;
    this.rowBlock = structure?.rowBlock ?? new Int32Array(rows).fill(-1);
    this.rowKind = structure?.rowKind ?? new Uint16Array(rows);
    this.locals = new Uint8Array(rows);
    this.used = new Uint8Array(rows);
    this.looksBack = new Uint8Array(rows);
    this.elsewhere = new Uint8Array(rows);
    this.kind = new Uint8Array(rows);
    this.sign = new Int8Array(rows).fill(1);
    this.rhs = new Float64Array(rows);
    const kinds = kindCount(this.rowKind);
    this.isInterior = new Uint8Array(kinds);
    this.isBack = new Uint8Array(kinds);
    this.isSlack = new Uint8Array(kinds);
  }

  meetColumns(from: number, to: number): void {
    for (let j = from; j < to; j += 1) this.meet(j);
  }

  /** Up to the first row that fails. */
  classifyRows(from: number, to: number): void {
    for (let i = from; i < to && this.failure === null; i += 1) this.failure = this.classify(i);
  }

  /** Notes what a column does to its rows. */
  private meet(j: number): void {
    const at = baseOf(this.program, j);
    const isKept = this.columns.place[j] >= 0;
    const t = blockOf(this.program, this.columns, j);
    const end = this.starts[j + 1];
    for (let e = this.starts[j]; e < end; e += 1) {
      const i = this.indices[e];
      if (at !== 0) this.rhs[i] += this.values[e] * at;
      if (!isKept) continue;
      this.used[i] = 1;
      if (t < 0) continue;
      this.locals[i] = Math.min(2, this.locals[i] + 1);
      const own = this.rowBlock[i];
      if (own < 0 || t === own) continue;
      this.looksBack[i] = 1;
      if (t < own - 1) this.elsewhere[i] = 1;
    }
  }

  /** Finds a row's side and whether it is long; those of blocks are interior until `place`. */
  private classify(i: number): "infeasible" | "unsupported" | null {
    const lower = this.program.rowLower[i] - this.rhs[i];
    const upper = this.program.rowUpper[i] - this.rhs[i];
    if (this.used[i] === 0) {
      const tolerance = rowTolerance * (1 + Math.abs(this.rhs[i]));
      return lower > tolerance || upper < -tolerance ? "infeasible" : null;
    }
    if (!(lower <= upper)) return "infeasible";
    if (lower === Number.NEGATIVE_INFINITY && upper === Number.POSITIVE_INFINITY) return null;
    const turned = upper === Number.POSITIVE_INFINITY;
    this.sign[i] = turned ? -1 : 1;
    this.rhs[i] = turned ? -lower : upper;
    if (this.rowBlock[i] < 0 || this.locals[i] === 0) {
      this.kind[i] = rowClass.long;
      return null;
    }
    if (this.elsewhere[i] === 1) return "unsupported";
    this.kind[i] = rowClass.interior;
    const k = this.rowKind[i];
    const slackWidth = slackWidthOf(this.program, i);
    if (this.locals[i] > 1 || this.looksBack[i] === 1 || slackWidth < Number.POSITIVE_INFINITY)
      this.isInterior[k] = 1;
    if (this.looksBack[i] === 1) this.isBack[k] = 1;
    if (slackWidth > 0) this.isSlack[k] = 1;
    return null;
  }

  /** Numbers what has been found; slack slots follow those of the columns. */
  place(columnSlots: number): Rows {
    const { kind, sign, rhs, isInterior, isBack, isSlack, rowKind } = this;
    // Rows that look back come last, so that only they tie a block to the next.
    const slotOf = new Int32Array(isInterior.length).fill(-1);
    let interior = 0;
    for (const back of [0, 1]) {
      for (let k = 0; k < slotOf.length; k += 1) {
        if (isInterior[k] === 0 || isBack[k] !== back) continue;
        slotOf[k] = interior;
        interior += 1;
      }
    }
    const slackSlot: number[] = new Array(interior).fill(-1);
    let slots = columnSlots;
    for (let k = 0; k < slotOf.length; k += 1) {
      if (slotOf[k] < 0 || isSlack[k] === 0) continue;
      slackSlot[slotOf[k]] = slots;
      slots += 1;
    }
    const numbering = new Numbering(kind, rowKind, slotOf);
    stretches(kind.length, (from, to) => numbering.number(from, to));
    const { place, long } = numbering;
    return new Rows({ kind, place, sign, rhs, interior, long, slackSlot, slots });
  }
}

/** Long rows get numbers, rows whose kind has a slot get that, and all others of a block are limits. */
class Numbering {
  readonly place: Int32Array;
  long = 0;
  private readonly kind: Uint8Array;
  private readonly rowKind: Uint16Array;
  private readonly slotOf: Int32Array;

  constructor(kind: Uint8Array, rowKind: Uint16Array, slotOf: Int32Array) {
    this.place = new Int32Array(kind.length).fill(-1);
    this.kind = kind;
    this.rowKind = rowKind;
    this.slotOf = slotOf;
  }

  number(from: number, to: number): void {
    for (let i = from; i < to; i += 1) {
      const kind = this.kind[i];
      if (kind === rowClass.long) {
        this.place[i] = this.long;
        this.long += 1;
      } else if (kind === rowClass.interior) {
        const slot = this.slotOf[this.rowKind[i]];
        if (slot >= 0) this.place[i] = slot;
        else this.kind[i] = rowClass.limit;
      }
    }
  }
}

/** Infinity for an inequality, 0 for an equation, between for a range. */
export function slackWidthOf({ rowLower, rowUpper }: LinearProgram, row: number): number {
  return isSame(rowLower[row], rowUpper[row]) ? 0 : rowUpper[row] - rowLower[row];
}

function kindCount(rowKind: Uint16Array): number {
  let count = 0;
  stretches(rowKind.length, (from, to) => {
    count = Math.max(count, mostOf(rowKind, from, to) + 1);
  });
  return count;
}

function mostOf(kinds: Uint16Array, from: number, to: number): number {
  let most = 0;
  for (let i = from; i < to; i += 1) most = Math.max(most, kinds[i]);
  return most;
}
