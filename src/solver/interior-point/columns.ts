import type { LinearProgram } from "../../core/dispatch/program.ts";
import { baseOf } from "./base.ts";

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

/** Sorts the columns; `unsupported` where a column of a block has no bound at all. */
export function sortColumns(program: LinearProgram): Columns | "infeasible" | "unbounded" | "unsupported" {
  const { columns, colLower, colUpper, starts, structure } = program;
  const place = new Int32Array(columns).fill(-1);
  const sign = new Int8Array(columns).fill(1);
  const slotOf = new Map<number, number>();
  const sizes: SizeColumn[] = [];
  for (let j = 0; j < columns; j += 1) {
    const lower = colLower[j];
    const upper = colUpper[j];
    if (!(lower <= upper)) return "infeasible";
    if (isSame(lower, upper)) continue;
    if (starts[j] === starts[j + 1]) {
      if (!Number.isFinite(baseOf(program, j))) return "unbounded";
      continue;
    }
    const isFree = lower === Number.NEGATIVE_INFINITY && upper === Number.POSITIVE_INFINITY;
    if (lower === Number.NEGATIVE_INFINITY && !isFree) sign[j] = -1;
    const t = structure?.columnBlock[j] ?? -1;
    if (t < 0 || structure === undefined) {
      place[j] = sizes.length;
      sizes.push({ source: j, sign: sign[j] });
      if (isFree) sizes.push({ source: j, sign: -1 });
      continue;
    }
    if (isFree) return "unsupported";
    const key = 2 * structure.columnKind[j] + (sign[j] < 0 ? 1 : 0);
    let slot = slotOf.get(key);
    if (slot === undefined) {
      slot = slotOf.size;
      slotOf.set(key, slot);
    }
    place[j] = slot;
  }
  return new Columns(slotOf.size, place, sign, sizes);
}

/** Block of a column that the method keeps, −1 for sizes and for those held fixed. */
export function blockOf(program: LinearProgram, { place }: Columns, column: number): number {
  return place[column] < 0 || program.structure === undefined ? -1 : program.structure.columnBlock[column];
}

/** Room between a column's bounds. */
export const widthOf = ({ colLower, colUpper }: LinearProgram, column: number) =>
  colUpper[column] - colLower[column];
