import type { LinearProgram } from "../../core/dispatch/program.ts";
import { blockOf, type Columns, widthOf } from "./columns.ts";
import type { Links } from "./links.ts";
import { type Rows, rowClass, slackWidthOf } from "./rows.ts";
import type { Coefficient } from "./template.ts";

/** A place of the template with what its numbers have been: the same throughout, or not. */
interface Seen {
  first: number;
  count: number;
  isSame: boolean;
}

export interface SeenLimit {
  readonly column: number;
  readonly sign: 1 | -1;
  readonly rhs: Seen;
  readonly terms: ({ readonly size: number } & Seen)[];
}

/** Every place at which some block has an entry, and how often. */
export interface Occurrences {
  readonly programBlocks: number;
  /** Blocks in which each slot is present. */
  readonly active: Int32Array;
  readonly own: readonly ({ readonly row: number; readonly column: number } & Seen)[];
  readonly ownAt: Int32Array;
  readonly back: readonly { readonly row: number; readonly column: number }[];
  readonly backAt: Int32Array;
  readonly limits: readonly SeenLimit[];
  readonly limitCount: readonly number[];
  /** What made a limit's coefficient ±1, by row; null where all were. */
  readonly limitDivisor: Float64Array | null;
  readonly upperLimit: Int32Array;
  readonly long: readonly ({ readonly row: number; readonly column: number } & Seen)[];
  readonly longAt: Int32Array;
  readonly direct: readonly { readonly row: number; readonly size: number }[];
  readonly directAt: ReadonlyMap<number, number>;
  readonly longUsed: Uint8Array;
  readonly sizeUsed: Uint8Array;
  readonly costly: Uint8Array;
  /** Pairs of a value and a multiplier, in blocks and border. */
  readonly pairCount: number;
}

function see(place: Seen, value: number): void {
  if (place.count === 0) place.first = value;
  else if (place.first !== value) place.isSame = false;
  place.count += 1;
}
function termOf({ terms }: SeenLimit, size: number): Seen {
  for (const term of terms) if (term.size === size) return term;
  const term = { size, ...unseen() };
  terms.push(term);
  return term;
}

const unseen = (): Seen => ({ first: 0, count: 0, isSame: true });

/** Goes through all entries once; null where a limit has no coefficient left. */
export function occurrences(
  program: LinearProgram,
  columns: Columns,
  rows: Rows,
  links: Links,
): Occurrences | null {
  const { starts, indices, values, cost } = program;
  const { place: columnPlace, sign } = columns;
  const rowBlock = program.structure?.rowBlock;
  const n = rows.slots;
  const m = rows.interior;
  const active = new Int32Array(n);
  const costly = new Uint8Array(n);
  const own: ({ row: number; column: number } & Seen)[] = [];
  const ownAt = new Int32Array(m * n).fill(-1);
  const back: { row: number; column: number }[] = [];
  const backAt = new Int32Array(m * n).fill(-1);
  const long: ({ row: number; column: number } & Seen)[] = [];
  const longAt = new Int32Array(rows.long * n).fill(-1);
  const longUsed = new Uint8Array(rows.long);
  const limits: SeenLimit[] = [];
  const limitCount: number[] = [];
  const limitPlace = new Map<number, number>();
  let limitDivisor: Float64Array | null = null;
  const upperLimit = new Int32Array(n).fill(-1);
  const direct: { row: number; size: number }[] = [];
  const directAt = new Map<number, number>();
  const sizeUsed = new Uint8Array(columns.sizes);
  let pairCount = 0;

  const addOwn = (row: number, column: number, value: number) => {
    let at = ownAt[row * n + column];
    if (at < 0) {
      at = own.length;
      ownAt[row * n + column] = at;
      own.push({ row, column, ...unseen() });
    }
    see(own[at], value);
  };
  const addBack = (row: number, column: number) => {
    if (backAt[row * n + column] >= 0) return;
    backAt[row * n + column] = back.length;
    back.push({ row, column });
  };
  const limitAt = (at: number | undefined, column: number, direction: 1 | -1, rhs: number): number => {
    const place = at ?? limits.length;
    if (at === undefined) {
      limits.push({ column, sign: direction, rhs: unseen(), terms: [] });
      limitCount.push(0);
    }
    see(limits[place].rhs, rhs);
    limitCount[place] += 1;
    pairCount += 1;
    return place;
  };
  const limitFor = (kind: number, column: number, direction: 1 | -1, rhs: number): number => {
    const key = 2 * (kind * n + column) + (direction > 0 ? 1 : 0);
    const known = limitPlace.get(key);
    const place = limitAt(known, column, direction, rhs);
    if (known === undefined) limitPlace.set(key, place);
    return place;
  };
  const addUpper = (slot: number, width: number) => {
    upperLimit[slot] = limitAt(upperLimit[slot] < 0 ? undefined : upperLimit[slot], slot, 1, width);
  };

  for (let j = 0; j < program.columns; j += 1) {
    const slot = columnPlace[j];
    const t = blockOf(program, columns, j);
    if (t < 0) continue;
    active[slot] += 1;
    pairCount += 1;
    if (cost[j] !== 0) costly[slot] = 1;
    if (widthOf(program, j) < Number.POSITIVE_INFINITY) addUpper(slot, widthOf(program, j));
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      const value = values[e] * sign[j] * rows.sign[i];
      switch (rows.kind[i]) {
        case rowClass.interior:
          if (t === rowBlock?.[i]) addOwn(rows.place[i], slot, value);
          else addBack(rows.place[i], slot);
          break;
        case rowClass.limit: {
          const direction = value > 0 ? 1 : -1;
          const kind = program.structure?.rowKind[i] ?? 0;
          const divisor = Math.abs(value);
          if (divisor !== 1) limitDivisor ??= new Float64Array(program.rows).fill(1);
          if (limitDivisor !== null) limitDivisor[i] = divisor;
          rows.place[i] = limitFor(kind, slot, direction, rows.rhs[i] / divisor);
          break;
        }
        case rowClass.long: {
          const y = rows.place[i];
          let at = longAt[y * n + slot];
          if (at < 0) {
            at = long.length;
            longAt[y * n + slot] = at;
            long.push({ row: y, column: slot, ...unseen() });
            longUsed[y] = 1;
          }
          see(long[at], value);
          break;
        }
        default:
          break;
      }
    }
  }
  // A slack has one entry, in its own row; where the row is an equation the slack is absent.
  for (let i = 0; i < program.rows; i += 1) {
    if (rows.kind[i] !== rowClass.interior || !(slackWidthOf(program, i) > 0)) continue;
    const slot = rows.slackSlot[rows.place[i]];
    active[slot] += 1;
    pairCount += 1;
    addOwn(rows.place[i], slot, 1);
    if (slackWidthOf(program, i) < Number.POSITIVE_INFINITY) addUpper(slot, slackWidthOf(program, i));
  }
  for (let z = 0; z < columns.sizes; z += 1) {
    const j = columns.sizeSource[z];
    pairCount += widthOf(program, j) < Number.POSITIVE_INFINITY && columns.sizeSign[z] === sign[j] ? 2 : 1;
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      const value = values[e] * columns.sizeSign[z] * rows.sign[i];
      if (rows.kind[i] === rowClass.interior) {
        sizeUsed[z] = 1;
        const key = rows.place[i] * columns.sizes + z;
        if (directAt.has(key)) continue;
        directAt.set(key, direct.length);
        direct.push({ row: rows.place[i], size: z });
      } else if (rows.kind[i] === rowClass.limit) {
        sizeUsed[z] = 1;
        if (rows.place[i] < 0) return null;
        see(termOf(limits[rows.place[i]], z), -value / (limitDivisor?.[i] ?? 1));
      }
    }
  }
  for (let i = 0; i < program.rows; i += 1) {
    if (rows.kind[i] === rowClass.long && slackWidthOf(program, i) > 0) {
      pairCount += slackWidthOf(program, i) < Number.POSITIVE_INFINITY ? 2 : 1;
    }
  }
  return {
    programBlocks: links.placeOfBlock.length,
    active,
    own,
    ownAt,
    back,
    backAt,
    limits,
    limitCount,
    limitDivisor,
    upperLimit,
    long,
    longAt,
    direct,
    directAt,
    longUsed,
    sizeUsed,
    costly,
    pairCount,
  };
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
    own: seen.own.map((item) => place(item, seen.active[item.column])),
    limits: seen.limits.map(({ terms }, l) => terms.map((term) => place(term, seen.limitCount[l]))),
    limitRhs: seen.limits.map(({ rhs }, l) => place(rhs, seen.limitCount[l])),
    long: seen.long.map((item) => place(item, seen.active[item.column])),
  };
  return { constants: Float64Array.from(constants), coefficient, varyingCount };
}
