import type { LinearProgram } from "../../core/dispatch/program.ts";
import { type Columns, sortColumns } from "./columns.ts";
import { fill } from "./fill.ts";
import { type Links, linksOf } from "./links.ts";
import { constantsOf, type Occurrences, occurrences } from "./occurrences.ts";
import { type ReturnMap, returnMap } from "./return-map.ts";
import { type Rows, sortRows } from "./rows.ts";
import type { Carried, Template } from "./template.ts";

/** Blocks [from, to) that are eliminated one after the other; what closes its cycles follows. */
export interface Segment {
  readonly from: number;
  readonly to: number;
}

/**
 * A program as blocks of one template in a row, with a border of long rows and sizes. All arrays by
 * block are laid out block after block. Unscaled until `scaleStaircase`.
 */
export interface Staircase {
  readonly template: Template;
  readonly sizes: number;
  readonly long: number;
  readonly returns: ReturnMap;
  /** Place of a program's block among the blocks, which hold the closing ones too. */
  readonly placeOfBlock: Int32Array;
  readonly blocks: number;
  readonly segments: readonly Segment[];
  readonly constants: Float64Array;
  readonly varying: Float64Array;
  readonly back: Float64Array;
  readonly direct: Float64Array;
  readonly mask: Uint8Array;
  /** 1, and 0 in closing blocks. */
  readonly live: Uint8Array;
  readonly cost: Float64Array;
  readonly rhs: Float64Array;
  /** Strides of varying, back, direct, mask and cost. */
  readonly strides: {
    readonly varying: number;
    readonly back: number;
    readonly direct: number;
    readonly mask: number;
    readonly cost: number;
  };
  /** Limit slot that holds a column slot's own upper bound, −1 where it has none. */
  readonly upperLimit: Int32Array;
  /** Long rows × sizes, by rows. */
  readonly corner: Float64Array;
  readonly longRhs: Float64Array;
  readonly longSlack: Float64Array;
  readonly sizeCost: Float64Array;
  readonly sizeWidth: Float64Array;
  readonly pairCount: number;
}

export type Failure = "infeasible" | "unbounded" | "unsupported";

/** Finds the template of a program and lays its numbers out by blocks. */
export function staircase(program: LinearProgram): Staircase | Failure {
  const columns = sortColumns(program);
  if (typeof columns === "string") return columns;
  const rows = sortRows(program, columns);
  if (typeof rows === "string") return rows;
  const links = linksOf(program, columns, rows);
  if (links === null) return "unsupported";
  const seen = occurrences(program, columns, rows, links);
  if (seen === null) return "unsupported";
  return layOut(program, columns, rows, links, seen);
}

function layOut(
  program: LinearProgram,
  columns: Columns,
  rows: Rows,
  links: Links,
  seen: Occurrences,
): Staircase {
  const { interior: m, slots: n, long } = rows;
  const { blocks, placeOfBlock } = links;
  const q = seen.limits.length;
  const { constants, coefficient, varyingCount } = constantsOf(seen);
  const carried: Carried[] = links.list.map((_, link) => ({ kind: "link", link }));
  const carriedLong = new Int32Array(long).fill(-1);
  for (let y = 0; y < long; y += 1) {
    if (seen.longUsed[y] === 0) continue;
    carriedLong[y] = carried.length;
    carried.push({ kind: "long", row: y });
  }
  const carriedSize = new Int32Array(columns.sizes).fill(-1);
  for (let z = 0; z < columns.sizes; z += 1) {
    if (seen.sizeUsed[z] === 0) continue;
    carriedSize[z] = carried.length;
    carried.push({ kind: "size", size: z });
  }
  const direct: Template["direct"][number][] = links.list.map(({ row }, link) => ({
    row,
    carried: link,
    at: link,
  }));
  for (const { row, size } of seen.direct)
    direct.push({ row, carried: carriedSize[size], at: direct.length });

  const mask = maskPlaces(seen, n, q);
  const costPlace: number[] = [];
  let costs = 0;
  for (let j = 0; j < n; j += 1) costPlace.push(seen.costly[j] === 1 ? costs++ : -1);
  const template: Template = {
    columns: n,
    rows: m,
    limits: q,
    own: seen.own.map(({ row, column }, i) => ({ row, column, value: coefficient.own[i] })),
    back: seen.back.map(({ row, column }, at) => ({ row, column, at })),
    limit: seen.limits.map(({ column, sign, terms }, l) => ({
      column,
      sign,
      rhs: coefficient.limitRhs[l],
      terms: terms.map(({ size }, i) => ({ size, value: coefficient.limits[l][i] })),
    })),
    long: seen.long.map(({ row, column }, i) => ({ row, column, value: coefficient.long[i] })),
    direct,
    mask: mask.place,
    cost: costPlace,
    carried,
  };
  const strides = {
    varying: varyingCount,
    back: template.back.length,
    direct: direct.length,
    mask: mask.count,
    cost: costs,
  };
  const result: Staircase = {
    template,
    sizes: columns.sizes,
    long,
    returns: returnMap(columns, rows, seen),
    placeOfBlock,
    blocks,
    segments: links.segments,
    constants,
    varying: new Float64Array(blocks * varyingCount),
    back: new Float64Array((blocks + 1) * strides.back),
    direct: new Float64Array(blocks * strides.direct),
    mask: new Uint8Array(blocks * mask.count),
    live: new Uint8Array(blocks),
    cost: new Float64Array(blocks * costs),
    rhs: new Float64Array(blocks * m),
    strides,
    upperLimit: seen.upperLimit,
    corner: new Float64Array(long * columns.sizes),
    longRhs: new Float64Array(long),
    longSlack: new Float64Array(long),
    sizeCost: new Float64Array(columns.sizes),
    sizeWidth: new Float64Array(columns.sizes),
    pairCount: seen.pairCount,
  };
  fill({ program, columns, rows, links, seen, coefficient }, result);
  return result;
}

/** A pair that every block has needs no mask of its own: `live` tells the closing blocks apart. */
function maskPlaces(seen: Occurrences, n: number, q: number) {
  const place: number[] = [];
  let count = 0;
  for (let p = 0; p < n + q; p += 1) {
    const isAlways = (p < n ? seen.active[p] : seen.rhsSeen.countAt(p - n)) === seen.programBlocks;
    place.push(isAlways ? -1 : count++);
  }
  return { place, count };
}
