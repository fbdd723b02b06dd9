import type { LinearProgram } from "../../core/dispatch/program.ts";
import { type Columns, widthOf } from "./columns.ts";
import type { Links } from "./links.ts";
import { type Rows, rowClass, slackWidthOf } from "./rows.ts";
import { stretches } from "./stretches.ts";
import { Tally } from "./tally.ts";
import type { Coefficient } from "./template.ts";

interface Entry {
  readonly row: number;
  readonly column: number;
}

export interface SeenLimit {
  readonly column: number;
  readonly sign: 1 | -1;
  /** Sizes that the limit counts, with the place of their coefficient in `term`. */
  readonly terms: { readonly size: number; readonly at: number }[];
}

/** Every place at which some block has an entry, and how often. */
export interface Occurrences {
  readonly programBlocks: number;
  /** Blocks in which each slot is present. */
  readonly active: Int32Array;
  readonly own: readonly Entry[];
  readonly ownAt: Int32Array;
  readonly back: readonly Entry[];
  readonly backAt: Int32Array;
  readonly limits: readonly SeenLimit[];
  /** Numbers at the places of `own` and `long`, at the limits' right-hand sides and at their terms. */
  readonly ownSeen: Tally;
  readonly longSeen: Tally;
  readonly rhsSeen: Tally;
  readonly termSeen: Tally;
  /** What made a limit's coefficient ±1, by row; null where all were. */
  readonly limitDivisor: Float64Array | null;
  readonly upperLimit: Int32Array;
  readonly long: readonly Entry[];
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
  stretches(program.rows, (from, to) => counting.meetLong(from, to));
  stretches(program.columns, (from, to) => counting.meetColumns(from, to));
  stretches(program.rows, (from, to) => counting.meetSlacks(from, to));
  counting.beginSizes();
  for (let z = 0; z < columns.sizes; z += 1) if (!counting.meetSize(z)) return null;
  return counting;
}

/**
 * The count column by column, in methods for the reason told in rows.ts. What the methods read often is
 * in fields of its own, whose arrays have shapes that outlive a solve.
 */
class Counting implements Occurrences {
  private readonly program: LinearProgram;
  private readonly starts: Int32Array;
  private readonly indices: Int32Array;
  private readonly values: Float64Array;
  private readonly cost: Float64Array;
  private readonly colLower: Float64Array;
  private readonly colUpper: Float64Array;
  private readonly columnBlock: Int32Array;
  private readonly rowBlock: Int32Array;
  private readonly rowKind: Uint16Array;
  private readonly columnPlace: Int32Array;
  private readonly columnSign: Int8Array;
  private readonly sizeSource: Int32Array;
  private readonly sizeSign: Float64Array;
  private readonly rowClass: Uint8Array;
  private readonly rowPlace: Int32Array;
  private readonly rowSign: Int8Array;
  private readonly rhs: Float64Array;
  private readonly slackSlot: Int32Array;
  private readonly slots: number;
  private readonly sizes: number;
  private readonly limitPlace = new Map<number, number>();
  /** By limit and size, from `beginSizes` on. */
  private termAt = new Int32Array(0);
  private termCount = 0;
  readonly programBlocks: number;
  readonly active: Int32Array;
  readonly costly: Uint8Array;
  readonly own: Entry[] = [];
  readonly ownAt: Int32Array;
  readonly ownSeen: Tally;
  readonly back: Entry[] = [];
  readonly backAt: Int32Array;
  readonly long: Entry[] = [];
  readonly longAt: Int32Array;
  readonly longSeen: Tally;
  readonly longUsed: Uint8Array;
  readonly limits: SeenLimit[] = [];
  readonly rhsSeen: Tally;
  readonly termSeen = new Tally(0);
  limitDivisor: Float64Array | null = null;
  readonly upperLimit: Int32Array;
  readonly direct: { readonly row: number; readonly size: number }[] = [];
  readonly directAt = new Map<number, number>();
  readonly sizeUsed: Uint8Array;
  pairCount = 0;

  constructor(program: LinearProgram, columns: Columns, rows: Rows, links: Links) {
    this.program = program;
    this.starts = program.starts;
    this.indices = program.indices;
    this.values = program.values;
    this.cost = program.cost;
    this.colLower = program.colLower;
    this.colUpper = program.colUpper;
    this.columnBlock = program.structure?.columnBlock ?? new Int32Array(program.columns).fill(-1);
    this.rowBlock = program.structure?.rowBlock ?? new Int32Array(program.rows).fill(-1);
    this.rowKind = program.structure?.rowKind ?? new Uint16Array(program.rows);
    this.columnPlace = columns.place;
    this.columnSign = columns.sign;
    this.sizeSource = columns.sizeSource;
    this.sizeSign = columns.sizeSign;
    this.rowClass = rows.kind;
    this.rowPlace = rows.place;
    this.rowSign = rows.sign;
    this.rhs = rows.rhs;
    this.slackSlot = Int32Array.from(rows.slackSlot);
    const { slots, interior, long } = rows;
    this.slots = slots;
    this.sizes = columns.sizes;
    this.programBlocks = links.placeOfBlock.length;
    this.active = new Int32Array(slots);
    this.costly = new Uint8Array(slots);
    this.ownAt = new Int32Array(interior * slots).fill(-1);
    this.ownSeen = new Tally(interior * slots);
    this.backAt = new Int32Array(interior * slots).fill(-1);
    this.longAt = new Int32Array(long * slots).fill(-1);
    this.longSeen = new Tally(long * slots);
    this.longUsed = new Uint8Array(long);
    this.rhsSeen = new Tally(2 * slots);
    this.upperLimit = new Int32Array(slots).fill(-1);
    this.sizeUsed = new Uint8Array(columns.sizes);
  }

  /** Counts the pairs of long rows. */
  meetLong(from: number, to: number): void {
    for (let i = from; i < to; i += 1) {
      if (this.rowClass[i] !== rowClass.long) continue;
      const width = slackWidthOf(this.program, i);
      if (width > 0) this.pairCount += width < Number.POSITIVE_INFINITY ? 2 : 1;
    }
  }

  meetColumns(from: number, to: number): void {
    for (let j = from; j < to; j += 1) this.meetColumn(j);
  }

  meetSlacks(from: number, to: number): void {
    for (let i = from; i < to; i += 1) this.meetSlack(i);
  }

  private meetColumn(j: number): void {
    const slot = this.columnPlace[j];
    const t = this.columnBlock[j];
    if (slot < 0 || t < 0) return;
    this.active[slot] += 1;
    this.pairCount += 1;
    if (this.cost[j] !== 0) this.costly[slot] = 1;
    const width = this.colUpper[j] - this.colLower[j];
    if (width < Number.POSITIVE_INFINITY) this.addUpper(slot, width);
    const end = this.starts[j + 1];
    const sign = this.columnSign[j];
    for (let e = this.starts[j]; e < end; e += 1) {
      const i = this.indices[e];
      this.meetEntry(i, slot, t, this.values[e] * sign * this.rowSign[i]);
    }
  }

  private meetEntry(i: number, slot: number, t: number, value: number): void {
    const kind = this.rowClass[i];
    if (kind === rowClass.interior) {
      if (t === this.rowBlock[i]) this.addOwn(this.rowPlace[i], slot, value);
      else this.addBack(this.rowPlace[i], slot);
    } else if (kind === rowClass.limit) this.addLimit(i, slot, value);
    else if (kind === rowClass.long) this.addLong(this.rowPlace[i], slot, value);
  }

  /** A slack has one entry, in its own row; where the row is an equation the slack is absent. */
  private meetSlack(i: number): void {
    if (this.rowClass[i] !== rowClass.interior) return;
    const width = slackWidthOf(this.program, i);
    if (!(width > 0)) return;
    const slot = this.slackSlot[this.rowPlace[i]];
    this.active[slot] += 1;
    this.pairCount += 1;
    this.addOwn(this.rowPlace[i], slot, 1);
    if (width < Number.POSITIVE_INFINITY) this.addUpper(slot, width);
  }

  /** All limits are known by now. */
  beginSizes(): void {
    this.termAt = new Int32Array(this.limits.length * this.sizes).fill(-1);
  }

  /** @returns false where a limit that the size counts in has no column */
  meetSize(z: number): boolean {
    const j = this.sizeSource[z];
    const sign = this.sizeSign[z];
    const hasWidth = widthOf(this.program, j) < Number.POSITIVE_INFINITY && sign === this.columnSign[j];
    this.pairCount += hasWidth ? 2 : 1;
    const first = this.starts[j];
    let isWhole = true;
    stretches(this.starts[j + 1] - first, (from, to) => {
      isWhole = this.meetEntriesOfSize(z, first + from, first + to) && isWhole;
    });
    return isWhole;
  }

  private meetEntriesOfSize(z: number, from: number, to: number): boolean {
    const sign = this.sizeSign[z];
    for (let e = from; e < to; e += 1) {
      const i = this.indices[e];
      if (!this.meetEntryOfSize(i, z, this.values[e] * sign * this.rowSign[i])) return false;
    }
    return true;
  }

  private meetEntryOfSize(i: number, z: number, value: number): boolean {
    const place = this.rowPlace[i];
    if (this.rowClass[i] === rowClass.interior) this.addDirect(place, z);
    else if (this.rowClass[i] === rowClass.limit) {
      if (place < 0) return false;
      this.addTerm(place, z, -value / (this.limitDivisor === null ? 1 : this.limitDivisor[i]));
    }
    return true;
  }

  private addTerm(limit: number, size: number, value: number): void {
    const known = this.termAt[limit * this.sizes + size];
    this.termSeen.see(known >= 0 ? known : this.newTerm(limit, size), value);
  }

  private addOwn(row: number, column: number, value: number): void {
    const known = this.ownAt[row * this.slots + column];
    this.ownSeen.see(known >= 0 ? known : this.newOwn(row, column), value);
  }

  private addBack(row: number, column: number): void {
    if (this.backAt[row * this.slots + column] < 0) this.newBack(row, column);
  }

  private addLong(row: number, column: number, value: number): void {
    const known = this.longAt[row * this.slots + column];
    this.longSeen.see(known >= 0 ? known : this.newLong(row, column), value);
  }

  private addDirect(row: number, size: number): void {
    if (!this.directAt.has(row * this.sizes + size)) this.newDirect(row, size);
  }

  private addUpper(slot: number, width: number): void {
    const known = this.upperLimit[slot];
    this.countLimit(known >= 0 ? known : this.newUpper(slot), width);
  }

  /** A limit row's own limit, and its divisor. */
  private addLimit(i: number, column: number, value: number): void {
    const divisor = Math.abs(value);
    if (divisor !== 1 && this.limitDivisor === null)
      this.limitDivisor = new Float64Array(this.program.rows).fill(1);
    if (this.limitDivisor !== null) this.limitDivisor[i] = divisor;
    const direction = value > 0 ? 1 : -1;
    const key = 2 * (this.rowKind[i] * this.slots + column) + (direction > 0 ? 1 : 0);
    const place = this.limitPlace.get(key) ?? this.newLimit(column, direction, key);
    this.rowPlace[i] = place;
    this.countLimit(place, this.rhs[i] / divisor);
  }

  /** What is rarely done is done apart: V8 compiles a list's first `push` for whole numbers alone. */
  private newOwn(row: number, column: number): number {
    const at = this.own.push({ row, column }) - 1;
    this.ownAt[row * this.slots + column] = at;
    return at;
  }

  private newBack(row: number, column: number): void {
    this.backAt[row * this.slots + column] = this.back.push({ row, column }) - 1;
  }

  private newLong(row: number, column: number): number {
    const at = this.long.push({ row, column }) - 1;
    this.longAt[row * this.slots + column] = at;
    this.longUsed[row] = 1;
    return at;
  }

  private newDirect(row: number, size: number): void {
    this.sizeUsed[size] = 1;
    this.directAt.set(row * this.sizes + size, this.direct.push({ row, size }) - 1);
  }

  private newTerm(limit: number, size: number): number {
    this.sizeUsed[size] = 1;
    const at = this.termCount;
    this.termCount += 1;
    this.termAt[limit * this.sizes + size] = at;
    this.termSeen.reach(at);
    this.limits[limit].terms.push({ size, at });
    return at;
  }

  private newUpper(slot: number): number {
    const place = this.addToLimits(slot, 1);
    this.upperLimit[slot] = place;
    return place;
  }

  private newLimit(column: number, sign: 1 | -1, key: number): number {
    const place = this.addToLimits(column, sign);
    this.limitPlace.set(key, place);
    return place;
  }

  private addToLimits(column: number, sign: 1 | -1): number {
    const place = this.limits.push({ column, sign, terms: [] }) - 1;
    this.rhsSeen.reach(place);
    return place;
  }

  private countLimit(place: number, rhs: number): void {
    this.rhsSeen.see(place, rhs);
    this.pairCount += 1;
  }
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
  const place = (tally: Tally, at: number, needed: number): Coefficient => {
    const constant = tally.constantAt(at, needed);
    if (constant !== null) {
      constants.push(constant);
      return { varies: false, at: constants.length - 1 };
    }
    varyingCount += 1;
    return { varies: true, at: varyingCount - 1 };
  };
  const { rhsSeen } = seen;
  const coefficient: Coefficients = {
    own: seen.own.map(({ column }, at) => place(seen.ownSeen, at, seen.active[column])),
    limits: seen.limits.map(({ terms }, l) =>
      terms.map(({ at }) => place(seen.termSeen, at, rhsSeen.countAt(l))),
    ),
    limitRhs: seen.limits.map((_, l) => place(rhsSeen, l, rhsSeen.countAt(l))),
    long: seen.long.map(({ column }, at) => place(seen.longSeen, at, seen.active[column])),
  };
  return { constants: Float64Array.from(constants), coefficient, varyingCount };
}
