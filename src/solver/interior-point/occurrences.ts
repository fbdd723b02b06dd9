import type { LinearProgram } from "../../core/dispatch/program.ts";
import { blockOf, type Columns, widthOf } from "./columns.ts";
import type { Links } from "./links.ts";
import { type Rows, rowClass, slackWidthOf } from "./rows.ts";
import type { Coefficient } from "./template.ts";

/** What the numbers at a place of the template have been: the same throughout, or not. */
class Seen {
  /** Not a whole number before the first, or V8 would change its kind of field then. */
  first = Number.NaN;
  count = 0;
  isSame = true;

  see(value: number): void {
    if (this.count === 0) this.first = value;
    else if (this.first !== value) this.isSame = false;
    this.count += 1;
  }
}

interface SeenEntry {
  readonly row: number;
  readonly column: number;
  readonly seen: Seen;
}

export interface SeenLimit {
  readonly column: number;
  readonly sign: 1 | -1;
  readonly rhs: Seen;
  readonly terms: { readonly size: number; readonly seen: Seen }[];
}

/** Every place at which some block has an entry, and how often. */
export interface Occurrences {
  readonly programBlocks: number;
  /** Blocks in which each slot is present. */
  readonly active: Int32Array;
  readonly own: readonly SeenEntry[];
  readonly ownAt: Int32Array;
  readonly back: readonly { readonly row: number; readonly column: number }[];
  readonly backAt: Int32Array;
  readonly limits: readonly SeenLimit[];
  readonly limitCount: readonly number[];
  /** What made a limit's coefficient ±1, by row; null where all were. */
  readonly limitDivisor: Float64Array | null;
  readonly upperLimit: Int32Array;
  readonly long: readonly SeenEntry[];
  readonly longAt: Int32Array;
  readonly direct: readonly { readonly row: number; readonly size: number }[];
  readonly directAt: ReadonlyMap<number, number>;
  readonly longUsed: Uint8Array;
  readonly sizeUsed: Uint8Array;
  readonly costly: Uint8Array;
  /** Pairs of a value and a multiplier, in blocks and border. */
  readonly pairCount: number;
}

/** Goes through all entries once; null where a limit has no coefficient left. */
export function occurrences(
  program: LinearProgram,
  columns: Columns,
  rows: Rows,
  links: Links,
): Occurrences | null {
  const counting = new Counting(program, columns, rows, links);
  for (let j = 0; j < program.columns; j += 1) counting.meetColumn(j);
  for (let i = 0; i < program.rows; i += 1) counting.meetSlack(i);
  for (let z = 0; z < columns.sizes; z += 1) if (!counting.meetSize(z)) return null;
  return counting;
}

/** The count column by column, in methods for the reason told in rows.ts. */
class Counting implements Occurrences {
  private readonly program: LinearProgram;
  private readonly columns: Columns;
  private readonly rows: Rows;
  private readonly starts: Int32Array;
  private readonly indices: Int32Array;
  private readonly values: Float64Array;
  private readonly rowBlock: Int32Array;
  private readonly rowKind: Uint16Array;
  private readonly limitPlace = new Map<number, number>();
  readonly programBlocks: number;
  readonly active: Int32Array;
  readonly costly: Uint8Array;
  readonly own: SeenEntry[] = [];
  readonly ownAt: Int32Array;
  readonly back: { readonly row: number; readonly column: number }[] = [];
  readonly backAt: Int32Array;
  readonly long: SeenEntry[] = [];
  readonly longAt: Int32Array;
  readonly longUsed: Uint8Array;
  readonly limits: SeenLimit[] = [];
  readonly limitCount: number[] = [];
  limitDivisor: Float64Array | null = null;
  readonly upperLimit: Int32Array;
  readonly direct: { readonly row: number; readonly size: number }[] = [];
  readonly directAt = new Map<number, number>();
  readonly sizeUsed: Uint8Array;
  pairCount = 0;

  constructor(program: LinearProgram, columns: Columns, rows: Rows, links: Links) {
    this.program = program;
    this.columns = columns;
    this.rows = rows;
    this.starts = program.starts;
    this.indices = program.indices;
    this.values = program.values;
    this.rowBlock = program.structure?.rowBlock ?? new Int32Array(program.rows).fill(-1);
    this.rowKind = program.structure?.rowKind ?? new Uint16Array(program.rows);
    const { slots, interior, long } = rows;
    this.programBlocks = links.placeOfBlock.length;
    this.active = new Int32Array(slots);
    this.costly = new Uint8Array(slots);
    this.ownAt = new Int32Array(interior * slots).fill(-1);
    this.backAt = new Int32Array(interior * slots).fill(-1);
    this.longAt = new Int32Array(long * slots).fill(-1);
    this.longUsed = new Uint8Array(long);
    this.upperLimit = new Int32Array(slots).fill(-1);
    this.sizeUsed = new Uint8Array(columns.sizes);
    for (let i = 0; i < program.rows; i += 1) {
      if (rows.kind[i] === rowClass.long && slackWidthOf(program, i) > 0)
        this.pairCount += slackWidthOf(program, i) < Number.POSITIVE_INFINITY ? 2 : 1;
    }
  }

  meetColumn(j: number): void {
    const t = blockOf(this.program, this.columns, j);
    if (t < 0) return;
    const slot = this.columns.place[j];
    this.active[slot] += 1;
    this.pairCount += 1;
    if (this.program.cost[j] !== 0) this.costly[slot] = 1;
    const width = widthOf(this.program, j);
    if (width < Number.POSITIVE_INFINITY) this.addUpper(slot, width);
    const end = this.starts[j + 1];
    for (let e = this.starts[j]; e < end; e += 1) {
      const i = this.indices[e];
      const value = this.values[e] * this.columns.sign[j] * this.rows.sign[i];
      const kind = this.rows.kind[i];
      if (kind === rowClass.interior) {
        if (t === this.rowBlock[i]) this.addOwn(this.rows.place[i], slot, value);
        else this.addBack(this.rows.place[i], slot);
      } else if (kind === rowClass.limit) this.addLimit(i, slot, value);
      else if (kind === rowClass.long) this.addLong(this.rows.place[i], slot, value);
    }
  }

  /** A slack has one entry, in its own row; where the row is an equation the slack is absent. */
  meetSlack(i: number): void {
    if (this.rows.kind[i] !== rowClass.interior) return;
    const width = slackWidthOf(this.program, i);
    if (!(width > 0)) return;
    const slot = this.rows.slackSlot[this.rows.place[i]];
    this.active[slot] += 1;
    this.pairCount += 1;
    this.addOwn(this.rows.place[i], slot, 1);
    if (width < Number.POSITIVE_INFINITY) this.addUpper(slot, width);
  }

  /** @returns false where a limit that the size counts in has no column */
  meetSize(z: number): boolean {
    const { sizeSource, sizeSign, sign, sizes } = this.columns;
    const j = sizeSource[z];
    this.pairCount += widthOf(this.program, j) < Number.POSITIVE_INFINITY && sizeSign[z] === sign[j] ? 2 : 1;
    const end = this.starts[j + 1];
    for (let e = this.starts[j]; e < end; e += 1) {
      const i = this.indices[e];
      const place = this.rows.place[i];
      if (this.rows.kind[i] === rowClass.interior) this.addDirect(place * sizes + z, place, z);
      else if (this.rows.kind[i] === rowClass.limit) {
        if (place < 0) return false;
        this.sizeUsed[z] = 1;
        const value = this.values[e] * sizeSign[z] * this.rows.sign[i];
        termOf(this.limits[place], z).see(-value / (this.limitDivisor === null ? 1 : this.limitDivisor[i]));
      }
    }
    return true;
  }

  private addOwn(row: number, column: number, value: number): void {
    const key = row * this.rows.slots + column;
    if (this.ownAt[key] < 0) {
      this.ownAt[key] = this.own.length;
      this.own.push({ row, column, seen: new Seen() });
    }
    this.own[this.ownAt[key]].seen.see(value);
  }

  private addBack(row: number, column: number): void {
    const key = row * this.rows.slots + column;
    if (this.backAt[key] >= 0) return;
    this.backAt[key] = this.back.length;
    this.back.push({ row, column });
  }

  private addLong(row: number, column: number, value: number): void {
    const key = row * this.rows.slots + column;
    if (this.longAt[key] < 0) {
      this.longAt[key] = this.long.length;
      this.long.push({ row, column, seen: new Seen() });
      this.longUsed[row] = 1;
    }
    this.long[this.longAt[key]].seen.see(value);
  }

  private addDirect(key: number, row: number, size: number): void {
    this.sizeUsed[size] = 1;
    if (this.directAt.has(key)) return;
    this.directAt.set(key, this.direct.length);
    this.direct.push({ row, size });
  }

  private addUpper(slot: number, width: number): void {
    const known = this.upperLimit[slot];
    const place = known >= 0 ? known : this.newLimit(slot, 1);
    if (known < 0) this.upperLimit[slot] = place;
    this.countLimit(place, width);
  }

  /** A limit row's own limit, and its divisor. */
  private addLimit(i: number, column: number, value: number): void {
    const divisor = Math.abs(value);
    if (divisor !== 1 && this.limitDivisor === null)
      this.limitDivisor = new Float64Array(this.program.rows).fill(1);
    if (this.limitDivisor !== null) this.limitDivisor[i] = divisor;
    const direction = value > 0 ? 1 : -1;
    const key = 2 * (this.rowKind[i] * this.rows.slots + column) + (direction > 0 ? 1 : 0);
    let place = this.limitPlace.get(key);
    if (place === undefined) {
      place = this.newLimit(column, direction);
      this.limitPlace.set(key, place);
    }
    this.rows.place[i] = place;
    this.countLimit(place, this.rows.rhs[i] / divisor);
  }

  private newLimit(column: number, sign: 1 | -1): number {
    this.limits.push({ column, sign, rhs: new Seen(), terms: [] });
    this.limitCount.push(0);
    return this.limits.length - 1;
  }

  private countLimit(place: number, rhs: number): void {
    this.limits[place].rhs.see(rhs);
    this.limitCount[place] += 1;
    this.pairCount += 1;
  }
}

function termOf({ terms }: SeenLimit, size: number): Seen {
  for (let i = 0; i < terms.length; i += 1) if (terms[i].size === size) return terms[i].seen;
  const seen = new Seen();
  terms.push({ size, seen });
  return seen;
}

/** Where each coefficient of the template is kept. */
export interface Coefficients {
  readonly own: readonly Coefficient[];
  readonly limits: readonly (readonly Coefficient[])[];
  readonly limitRhs: readonly Coefficient[];
  readonly long: readonly Coefficient[];
}

/** A number that is the same wherever its column is present becomes a constant. */
export function constantsOf(seen: Occurrences) {
  const constants: number[] = [];
  let varyingCount = 0;
  const place = (item: Seen, needed: number): Coefficient => {
    if (item.isSame && item.count === needed) {
      constants.push(item.first);
      return { varies: false, at: constants.length - 1 };
    }
    varyingCount += 1;
    return { varies: true, at: varyingCount - 1 };
  };
  const coefficient: Coefficients = {
    own: seen.own.map((item) => place(item.seen, seen.active[item.column])),
    limits: seen.limits.map(({ terms }, l) => terms.map((term) => place(term.seen, seen.limitCount[l]))),
    limitRhs: seen.limits.map(({ rhs }, l) => place(rhs, seen.limitCount[l])),
    long: seen.long.map((item) => place(item.seen, seen.active[item.column])),
  };
  return { constants: Float64Array.from(constants), coefficient, varyingCount };
}
