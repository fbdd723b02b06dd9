import type { LinearProgram } from "../../core/dispatch/program.ts";
import { blockOf, type Columns, widthOf } from "./columns.ts";
import type { Links } from "./links.ts";
import type { Coefficients, Occurrences } from "./occurrences.ts";
import { type Rows, rowClass, slackWidthOf } from "./rows.ts";
import type { Staircase } from "./staircase.ts";
import { stretches } from "./stretches.ts";
import type { Coefficient } from "./template.ts";

/** What is known of a program by the time its staircase is filled. */
interface Found {
  readonly program: LinearProgram;
  readonly columns: Columns;
  readonly rows: Rows;
  readonly links: Links;
  readonly seen: Occurrences;
  readonly coefficient: Coefficients;
}

/** Writes what a program's columns, rows and sizes say into the staircase's arrays. */
export function fill(found: Found, stairs: Staircase): void {
  const filling = new Filling(found, stairs);
  const { program, columns } = found;
  for (let b = 0; b < stairs.placeOfBlock.length; b += 1) stairs.live[stairs.placeOfBlock[b]] = 1;
  stretches(program.columns, (from, to) => filling.writeColumns(from, to));
  stretches(program.rows, (from, to) => filling.writeRows(from, to));
  for (let z = 0; z < columns.sizes; z += 1) filling.writeSize(z);
}

/** The writing column by column and row by row, in methods for the reason told in rows.ts. */
class Filling {
  private readonly program: LinearProgram;
  private readonly columns: Columns;
  private readonly rows: Rows;
  private readonly links: Links;
  private readonly seen: Occurrences;
  private readonly ownPlace: readonly Coefficient[];
  private readonly longPlace: readonly Coefficient[];
  private readonly rhsPlace: readonly Coefficient[];
  private readonly termPlace: readonly (readonly Coefficient[])[];
  private readonly stairs: Staircase;
  private readonly starts: Int32Array;
  private readonly indices: Int32Array;
  private readonly values: Float64Array;
  private readonly rowBlock: Int32Array;
  private readonly placeOfBlock: Int32Array;
  private readonly varying: Float64Array;
  private readonly back: Float64Array;
  private readonly direct: Float64Array;
  private readonly mask: Uint8Array;
  private readonly cost: Float64Array;
  private readonly rhs: Float64Array;
  private readonly costOf: readonly number[];
  private readonly maskOf: readonly number[];
  /** Strides. */
  private readonly varyings: number;
  private readonly backs: number;
  private readonly directs: number;
  private readonly masks: number;
  private readonly costs: number;

  constructor({ program, columns, rows, links, seen, coefficient }: Found, stairs: Staircase) {
    this.program = program;
    this.columns = columns;
    this.rows = rows;
    this.links = links;
    this.seen = seen;
    this.ownPlace = coefficient.own;
    this.longPlace = coefficient.long;
    this.rhsPlace = coefficient.limitRhs;
    this.termPlace = coefficient.limits;
    this.stairs = stairs;
    this.starts = program.starts;
    this.indices = program.indices;
    this.values = program.values;
    this.rowBlock = program.structure?.rowBlock ?? new Int32Array(program.rows).fill(-1);
    this.placeOfBlock = stairs.placeOfBlock;
    this.varying = stairs.varying;
    this.back = stairs.back;
    this.direct = stairs.direct;
    this.mask = stairs.mask;
    this.cost = stairs.cost;
    this.rhs = stairs.rhs;
    this.costOf = stairs.template.cost;
    this.maskOf = stairs.template.mask;
    this.varyings = stairs.strides.varying;
    this.backs = stairs.strides.back;
    this.directs = stairs.strides.direct;
    this.masks = stairs.strides.mask;
    this.costs = stairs.strides.cost;
  }

  writeColumns(from: number, to: number): void {
    for (let j = from; j < to; j += 1) this.writeColumn(j);
  }

  writeRows(from: number, to: number): void {
    for (let i = from; i < to; i += 1) this.writeRow(i);
  }

  private writeColumn(j: number): void {
    const own = blockOf(this.program, this.columns, j);
    if (own < 0) return;
    const slot = this.columns.place[j];
    const sign = this.columns.sign[j];
    const t = this.placeOfBlock[own];
    this.show(slot, t);
    this.setUpper(slot, t, widthOf(this.program, j));
    const costPlace = this.costOf[slot];
    if (costPlace >= 0) this.cost[t * this.costs + costPlace] = this.program.cost[j] * sign;
    const end = this.starts[j + 1];
    for (let e = this.starts[j]; e < end; e += 1) {
      const i = this.indices[e];
      const kind = this.rows.kind[i];
      const value = this.values[e] * sign * this.rows.sign[i];
      if (kind === rowClass.interior) this.writeInterior(i, slot, own, t, value);
      else if (kind === rowClass.long) {
        const at = this.seen.longAt[this.rows.place[i] * this.rows.slots + slot];
        this.setVarying(this.longPlace[at], t, value);
      }
    }
  }

  private writeInterior(i: number, slot: number, own: number, t: number, value: number): void {
    const row = this.rows.place[i];
    const key = row * this.rows.slots + slot;
    const rowBlock = this.rowBlock[i];
    if (own === rowBlock) this.setVarying(this.ownPlace[this.seen.ownAt[key]], t, value);
    else if (own < rowBlock) {
      this.back[this.placeOfBlock[rowBlock] * this.backs + this.seen.backAt[key]] = value;
    } else {
      const closing = this.links.closingPlace.get(own) ?? -1;
      const link = this.links.list.findIndex((item) => item.row === row && item.column === slot);
      this.direct[this.placeOfBlock[rowBlock] * this.directs + link] = value;
      this.direct[closing * this.directs + link] = -value;
      this.back[closing * this.backs + this.seen.backAt[key]] = value;
    }
  }

  private writeRow(i: number): void {
    const kind = this.rows.kind[i];
    const place = this.rows.place[i];
    if (kind === rowClass.interior) {
      const t = this.placeOfBlock[this.rowBlock[i]];
      this.rhs[t * this.rows.interior + place] = this.rows.rhs[i];
      const width = slackWidthOf(this.program, i);
      if (!(width > 0)) return;
      const slot = this.rows.slackSlot[place];
      this.show(slot, t);
      this.setUpper(slot, t, width);
      this.setVarying(this.ownPlace[this.seen.ownAt[place * this.rows.slots + slot]], t, 1);
    } else if (kind === rowClass.limit) {
      const t = this.placeOfBlock[this.rowBlock[i]];
      this.setVarying(this.rhsPlace[place], t, this.rows.rhs[i] / this.divisorOf(i));
      this.show(this.rows.slots + place, t);
    } else if (kind === rowClass.long) {
      this.stairs.longRhs[place] = this.rows.rhs[i];
      this.stairs.longSlack[place] = slackWidthOf(this.program, i);
    }
  }

  writeSize(z: number): void {
    const { sizeSource, sizeSign } = this.columns;
    const j = sizeSource[z];
    this.stairs.sizeCost[z] = this.program.cost[j] * sizeSign[z];
    this.stairs.sizeWidth[z] = widthOf(this.program, j);
    const first = this.starts[j];
    stretches(this.starts[j + 1] - first, (from, to) => this.writeEntriesOfSize(z, first + from, first + to));
  }

  private writeEntriesOfSize(z: number, from: number, to: number): void {
    const { sizeSign } = this.columns;
    for (let e = from; e < to; e += 1)
      this.writeOfSize(z, this.indices[e], this.values[e] * sizeSign[z] * this.rows.sign[this.indices[e]]);
  }

  private writeOfSize(z: number, i: number, value: number): void {
    const kind = this.rows.kind[i];
    const place = this.rows.place[i];
    if (kind === rowClass.long) this.stairs.corner[place * this.columns.sizes + z] = value;
    else if (kind === rowClass.interior) {
      const firstDirect = this.directs - this.seen.direct.length;
      const at = firstDirect + (this.seen.directAt.get(place * this.columns.sizes + z) ?? 0);
      this.direct[this.placeOfBlock[this.rowBlock[i]] * this.directs + at] = value;
    } else if (kind === rowClass.limit) {
      const { terms } = this.seen.limits[place];
      let term = 0;
      while (terms[term].size !== z) term += 1;
      const at = this.termPlace[place][term];
      if (at.varies) this.setVarying(at, this.placeOfBlock[this.rowBlock[i]], -value / this.divisorOf(i));
    }
  }

  private setVarying(at: Coefficient, t: number, value: number): void {
    if (at.varies) this.varying[t * this.varyings + at.at] = value;
  }

  /** Says that a pair is in a block. */
  private show(pair: number, t: number): void {
    const at = this.maskOf[pair];
    if (at >= 0) this.mask[t * this.masks + at] = 1;
  }

  private setUpper(slot: number, t: number, width: number): void {
    const limit = this.seen.upperLimit[slot];
    if (limit < 0 || width === Number.POSITIVE_INFINITY) return;
    this.setVarying(this.rhsPlace[limit], t, width);
    this.show(this.rows.slots + limit, t);
  }

  private divisorOf(i: number): number {
    return this.seen.limitDivisor === null ? 1 : this.seen.limitDivisor[i];
  }
}
