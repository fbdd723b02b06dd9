import type { LinearProgram } from "../../core/dispatch/program.ts";
import { blockOf, type Columns } from "./columns.ts";
import { type Rows, rowClass } from "./rows.ts";

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
export interface Links {
  readonly list: readonly Link[];
  /** Blocks with the closing ones, and the place of each program block among them. */
  readonly blocks: number;
  readonly placeOfBlock: Int32Array;
  readonly closes: number;
  readonly segments: readonly { readonly from: number; readonly to: number }[];
  /** Program block after which each closing block stands, by place of the closing block. */
  readonly closingPlace: ReadonlyMap<number, number>;
}

/** Finds the links; null where cycles overlap. */
export function linksOf(program: LinearProgram, columns: Columns, rows: Rows): Links | null {
  const { starts, indices, structure } = program;
  const list: Link[] = [];
  const known = new Set<number>();
  const closeAfter = new Set<number>();
  const spans: [number, number][] = [];
  let programBlocks = 0;
  for (let j = 0; j < program.columns; j += 1) {
    const t = blockOf(program, columns, j);
    if (t < 0) continue;
    if (t >= programBlocks) programBlocks = t + 1;
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      const own = structure?.rowBlock[i] ?? -1;
      if (rows.kind[i] !== rowClass.interior || t <= own) continue;
      spans.push([own, t]);
      closeAfter.add(t);
      const key = rows.place[i] * columns.slots + columns.place[j];
      if (known.has(key)) continue;
      known.add(key);
      list.push({ row: rows.place[i], column: columns.place[j] });
    }
  }
  if (structure !== undefined) {
    for (let i = 0; i < program.rows; i += 1)
      programBlocks = Math.max(programBlocks, structure.rowBlock[i] + 1);
  }
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
  return { list, blocks: place, placeOfBlock, closes: closeAfter.size, segments, closingPlace };
}
