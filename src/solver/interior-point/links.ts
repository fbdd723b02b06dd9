import type { LinearProgram } from "../../core/dispatch/program.ts";
import { blockOf, type Columns } from "./columns.ts";
import { type Rows, rowClass } from "./rows.ts";
import { stretches } from "./stretches.ts";

/** A row that reaches forward: it closes a cycle over the blocks from its own to that of the column. */
export interface Link {
  readonly row: number;
  readonly column: number;
}

/**
 * How cycles are opened. A row of block f with an entry a in a column of a later block T is given a
 * link column w instead, and behind T a closing block says −a·x + … : a·w − a·x = 0. Blocks then meet
 * only their neighbours; links are part of the border, and of their own segment of blocks only.
 */
export class Links {
  readonly list: readonly Link[];
  /** Blocks with the closing ones, and the place of each program block among them. */
  readonly blocks: number;
  readonly placeOfBlock: Int32Array;
  readonly closes: number;
  readonly segments: readonly { readonly from: number; readonly to: number }[];
  /** Program block after which each closing block stands, by place of the closing block. */
  readonly closingPlace: ReadonlyMap<number, number>;

  constructor(fields: Links) {
    this.list = fields.list;
    this.blocks = fields.blocks;
    this.placeOfBlock = fields.placeOfBlock;
    this.closes = fields.closes;
    this.segments = fields.segments;
    this.closingPlace = fields.closingPlace;
  }
}

/** Finds the links; null where cycles overlap. */
export function linksOf(program: LinearProgram, columns: Columns, rows: Rows): Links | null {
  const search = new LinkSearch(program, columns, rows);
  stretches(program.columns, (from, to) => search.meetColumns(from, to));
  stretches(program.rows, (from, to) => search.meetRows(from, to));
  const { list, closeAfter, spans } = search;
  const { programBlocks } = search;
  const placeOfBlock = new Int32Array(programBlocks);
  const closingPlace = new Map<number, number>();
  const segments: { from: number; to: number }[] = [];
  let place = 0;
  let from = 0;
  for (let t = 0; t < programBlocks; t += 1) {
    placeOfBlock[t] = place;
    place += 1;
    if (!closeAfter.has(t)) continue;
    closingPlace.set(t, place);
    place += 1;
    segments.push({ from, to: place });
    from = place;
  }
  if (from < place) segments.push({ from, to: place });
  for (const [first, last] of spans) {
    const begin = placeOfBlock[first];
    const end = placeOfBlock[last];
    if (!segments.some((segment) => segment.from <= begin && end < segment.to)) return null;
  }
  return new Links({ list, blocks: place, placeOfBlock, closes: closeAfter.size, segments, closingPlace });
}

/** The search column by column, in a method for the reason told in rows.ts. */
class LinkSearch {
  readonly list: Link[] = [];
  readonly closeAfter = new Set<number>();
  /** First and last block of each cycle. */
  readonly spans: [number, number][] = [];
  programBlocks = 0;
  private readonly known = new Set<number>();
  private readonly program: LinearProgram;
  private readonly columns: Columns;
  private readonly rows: Rows;
  private readonly rowBlock: Int32Array;
  private readonly rowClass: Uint8Array;

  constructor(program: LinearProgram, columns: Columns, rows: Rows) {
    this.program = program;
    this.columns = columns;
    this.rows = rows;
    this.rowClass = rows.kind;
    this.rowBlock = program.structure?.rowBlock ?? new Int32Array(program.rows).fill(-1);
  }

  meetColumns(from: number, to: number): void {
    for (let j = from; j < to; j += 1) this.meet(j);
  }

  meetRows(from: number, to: number): void {
    for (let i = from; i < to; i += 1)
      this.programBlocks = Math.max(this.programBlocks, this.rowBlock[i] + 1);
  }

  private meet(j: number): void {
    const t = blockOf(this.program, this.columns, j);
    if (t < 0) return;
    if (t >= this.programBlocks) this.programBlocks = t + 1;
    const { starts, indices } = this.program;
    const end = starts[j + 1];
    for (let e = starts[j]; e < end; e += 1) {
      const i = indices[e];
      if (t > this.rowBlock[i] && this.rowClass[i] === rowClass.interior) this.add(j, i, t);
    }
  }

  private add(j: number, i: number, to: number): void {
    const row = this.rows.place[i];
    const column = this.columns.place[j];
    this.spans.push([this.rowBlock[i], to]);
    this.closeAfter.add(to);
    const key = row * this.columns.slots + column;
    if (this.known.has(key)) return;
    this.known.add(key);
    this.list.push({ row, column });
  }
}
