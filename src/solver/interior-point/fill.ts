import type { LinearProgram } from "../../core/dispatch/program.ts";
import { blockOf, type Columns, widthOf } from "./columns.ts";
import type { Links } from "./links.ts";
import type { Coefficients, Occurrences } from "./occurrences.ts";
import { type Rows, rowClass, slackWidthOf } from "./rows.ts";
import type { Staircase } from "./staircase.ts";
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

/** Writes what columns of blocks and rows of blocks say into the staircase's arrays. */
export function fillBlocks(
  { program, columns, rows, links, seen, coefficient }: Found,
  stairs: Staircase,
): void {
  const { template, strides, placeOfBlock, mask, live } = stairs;
  const rowBlock = program.structure?.rowBlock ?? new Int32Array(program.rows).fill(-1);
  const { columns: n, rows: m } = template;
  const { starts, indices, values, cost } = program;
  for (let b = 0; b < placeOfBlock.length; b += 1) live[placeOfBlock[b]] = 1;
  const setVarying = (at: Coefficient, t: number, value: number) => {
    if (at.varies) stairs.varying[t * strides.varying + at.at] = value;
  };
  const show = (pair: number, t: number) => {
    const at = template.mask[pair];
    if (at >= 0) mask[t * strides.mask + at] = 1;
  };
  const setUpper = (slot: number, t: number, width: number) => {
    const limit = seen.upperLimit[slot];
    if (limit < 0 || width === Number.POSITIVE_INFINITY) return;
    setVarying(coefficient.limitRhs[limit], t, width);
    show(n + limit, t);
  };
  const linkAt = (row: number, column: number) =>
    links.list.findIndex((link) => link.row === row && link.column === column);

  for (let j = 0; j < program.columns; j += 1) {
    const slot = columns.place[j];
    const own = blockOf(program, columns, j);
    if (own < 0) continue;
    const t = placeOfBlock[own];
    show(slot, t);
    setUpper(slot, t, widthOf(program, j));
    if (template.cost[slot] >= 0) {
      stairs.cost[t * strides.cost + template.cost[slot]] = cost[j] * columns.sign[j];
    }
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      const value = values[e] * columns.sign[j] * rows.sign[i];
      const row = rows.place[i];
      if (rows.kind[i] === rowClass.interior) {
        if (own === rowBlock[i]) {
          setVarying(coefficient.own[seen.ownAt[row * n + slot]], t, value);
        } else if (own < rowBlock[i]) {
          stairs.back[placeOfBlock[rowBlock[i]] * strides.back + seen.backAt[row * n + slot]] = value;
        } else {
          const closing = links.closingPlace.get(own) ?? -1;
          const link = linkAt(row, slot);
          stairs.direct[placeOfBlock[rowBlock[i]] * strides.direct + link] = value;
          stairs.direct[closing * strides.direct + link] = -value;
          stairs.back[closing * strides.back + seen.backAt[row * n + slot]] = value;
        }
      } else if (rows.kind[i] === rowClass.long) {
        setVarying(coefficient.long[seen.longAt[row * n + slot]], t, value);
      }
    }
  }
  for (let i = 0; i < program.rows; i += 1) {
    const t = placeOfBlock[rowBlock[i]];
    if (rows.kind[i] === rowClass.interior) {
      stairs.rhs[t * m + rows.place[i]] = rows.rhs[i];
      if (!(slackWidthOf(program, i) > 0)) continue;
      const slot = rows.slackSlot[rows.place[i]];
      show(slot, t);
      setUpper(slot, t, slackWidthOf(program, i));
      setVarying(coefficient.own[seen.ownAt[rows.place[i] * n + slot]], t, 1);
    } else if (rows.kind[i] === rowClass.limit) {
      const limit = rows.place[i];
      setVarying(coefficient.limitRhs[limit], t, rows.rhs[i] / (seen.limitDivisor?.[i] ?? 1));
      show(n + limit, t);
    }
  }
}

/** Writes what sizes and long rows say. */
export function fillSizes({ program, columns, rows, seen, coefficient }: Found, stairs: Staircase): void {
  const { strides, placeOfBlock, template } = stairs;
  const rowBlock = program.structure?.rowBlock ?? new Int32Array(program.rows).fill(-1);
  const { starts, indices, values } = program;
  const firstDirect = template.direct.length - seen.direct.length;
  for (let z = 0; z < columns.sizes; z += 1) {
    const j = columns.sizeSource[z];
    stairs.sizeCost[z] = program.cost[j] * columns.sizeSign[z];
    stairs.sizeWidth[z] = widthOf(program, j);
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      const value = values[e] * columns.sizeSign[z] * rows.sign[i];
      if (rows.kind[i] === rowClass.long) stairs.corner[rows.place[i] * columns.sizes + z] = value;
      else if (rows.kind[i] === rowClass.interior) {
        const at = firstDirect + (seen.directAt.get(rows.place[i] * columns.sizes + z) ?? 0);
        stairs.direct[placeOfBlock[rowBlock[i]] * strides.direct + at] = value;
      } else if (rows.kind[i] === rowClass.limit) {
        const limit = rows.place[i];
        const term = seen.limits[limit].terms.findIndex((item) => item.size === z);
        const at = coefficient.limits[limit][term];
        if (at.varies) {
          const t = placeOfBlock[rowBlock[i]];
          stairs.varying[t * strides.varying + at.at] = -value / (seen.limitDivisor?.[i] ?? 1);
        }
      }
    }
  }
  for (let i = 0; i < program.rows; i += 1) {
    if (rows.kind[i] !== rowClass.long) continue;
    stairs.longRhs[rows.place[i]] = rows.rhs[i];
    stairs.longSlack[rows.place[i]] = slackWidthOf(program, i);
  }
}
