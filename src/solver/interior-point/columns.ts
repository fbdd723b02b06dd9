import type { LinearProgram } from "../../core/dispatch/program.ts";
import { baseOf } from "./base.ts";
import { stretches } from "./stretches.ts";

/**
 * The columns that the method works on: x_source = base + sign · x with 0 ≤ x ≤ width of its bounds. Columns of a
 * block are numbered by slot, the same in every block; others (sizes) one by one. Fixed and empty
 * columns are gone.
 */
export class Columns {
  readonly slots: number;
  readonly sizes: number;
  /** By source column: its slot or size, −1 where it is fixed. */
  readonly place: Int32Array;
  readonly sign: Int8Array;
  /** Source of each size; a free one has two sizes of opposite sign behind each other. */
  readonly sizeSource: Int32Array;
  readonly sizeSign: Float64Array;

  constructor(slots: number, place: Int32Array, sign: Int8Array, sizes: readonly SizeColumn[]) {
    this.slots = slots;
    this.sizes = sizes.length;
    this.place = place;
    this.sign = sign;
    this.sizeSource = Int32Array.from(sizes, ({ source }) => source);
    this.sizeSign = Float64Array.from(sizes, (size) => size.sign);
  }
}

interface SizeColumn {
  readonly source: number;
  readonly sign: number;
}

/** Bounds closer than this, relative to their size, hold a column fixed. */
const sameBound = 1e-13;

export const isSame = (lower: number, upper: number) =>
  lower === upper ||
  (Number.isFinite(lower) && upper - lower <= sameBound * Math.min(Math.abs(lower), Math.abs(upper)));

type Failure = "infeasible" | "unbounded" | "unsupported";

/** Sorts the columns; `unsupported` where a column of a block has no bound at all. */
export function sortColumns(program: LinearProgram): Columns | Failure {
  const sorting = new ColumnSorting(program);
  stretches(program.columns, (from, to) => sorting.meetColumns(from, to));
  const { failure, slotOf, place, sign, sizes } = sorting;
  return failure ?? new Columns(slotOf.size, place, sign, sizes);
}

/** The work column by column, in methods for the reason told in rows.ts. */
class ColumnSorting {
  failure: Failure | null = null;
  readonly place: Int32Array;
  readonly sign: Int8Array;
  readonly slotOf = new Map<number, number>();
  readonly sizes: SizeColumn[] = [];
  private readonly program: LinearProgram;
  private readonly columnBlock: Int32Array;
  private readonly columnKind: Uint16Array;

  constructor(program: LinearProgram) {
    const { columns, structure } = program;
    this.program = program;
    this.place = new Int32Array(columns).fill(-1);
    this.sign = new Int8Array(columns).fill(1);
    this.columnBlock = structure?.columnBlock ?? new Int32Array(columns).fill(-1);
    this.columnKind = structure?.columnKind ?? new Uint16Array(columns);
  }

  /** Up to the first column that fails. */
  meetColumns(from: number, to: number): void {
    for (let j = from; j < to && this.failure === null; j += 1) this.failure = this.meet(j);
  }

  private meet(j: number): Failure | null {
    const lower = this.program.colLower[j];
    const upper = this.program.colUpper[j];
    if (!(lower <= upper)) return "infeasible";
    if (isSame(lower, upper)) return null;
    if (this.program.starts[j] === this.program.starts[j + 1])
      return Number.isFinite(baseOf(this.program, j)) ? null : "unbounded";
    const isFree = lower === Number.NEGATIVE_INFINITY && upper === Number.POSITIVE_INFINITY;
    if (lower === Number.NEGATIVE_INFINITY && !isFree) this.sign[j] = -1;
    if (this.columnBlock[j] < 0) this.addSize(j, isFree);
    else if (isFree) return "unsupported";
    else {
      const key = 2 * this.columnKind[j] + (this.sign[j] < 0 ? 1 : 0);
      this.place[j] = this.slotOf.get(key) ?? this.newSlot(key);
    }
    return null;
  }

  private addSize(j: number, isFree: boolean): void {
    this.place[j] = this.sizes.length;
    this.sizes.push({ source: j, sign: this.sign[j] });
    if (isFree) this.sizes.push({ source: j, sign: -1 });
  }

  private newSlot(key: number): number {
    const slot = this.slotOf.size;
    this.slotOf.set(key, slot);
    return slot;
  }
}

/** Block of a column that the method keeps, −1 for sizes and for those held fixed. */
export function blockOf(program: LinearProgram, { place }: Columns, column: number): number {
  return place[column] < 0 || program.structure === undefined ? -1 : program.structure.columnBlock[column];
}

/** Room between a column's bounds. */
export const widthOf = ({ colLower, colUpper }: LinearProgram, column: number) =>
  colUpper[column] - colLower[column];
