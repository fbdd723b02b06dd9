import type { LinearProgram } from "../../core/dispatch/program.ts";
import type { Links } from "./links.ts";
import type { Coefficients, Occurrences } from "./occurrences.ts";
import { rowClass } from "./rows.ts";
import type { Staircase } from "./staircase.ts";
import type { Coefficient } from "./template.ts";

/** Writes what columns of blocks and rows of blocks say into the staircase's arrays. */
export function fillBlocks(
  program: LinearProgram,
  stairs: Staircase,
  links: Links,
  seen: Occurrences,
  coefficient: Coefficients,
): void {
  const { columns, rows, template, strides, placeOfBlock, mask, live } = stairs;
  const { columns: n, rows: m, limits: q } = template;
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
    stairs.limitRhs[t * q + limit] = width;
    show(n + limit, t);
  };
  const linkAt = (row: number, column: number) =>
    links.list.findIndex((link) => link.row === row && link.column === column);

  for (let j = 0; j < program.columns; j += 1) {
    const slot = columns.place[j];
    if (slot < 0 || columns.block[j] < 0) continue;
    const t = placeOfBlock[columns.block[j]];
    show(slot, t);
    setUpper(slot, t, columns.width[j]);
    if (template.cost[slot] >= 0) {
      stairs.cost[t * strides.cost + template.cost[slot]] = cost[j] * columns.sign[j];
    }
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      const value = values[e] * columns.sign[j] * rows.sign[i];
      const row = rows.place[i];
      if (rows.kind[i] === rowClass.interior) {
        if (columns.block[j] === rows.block[i]) {
          setVarying(coefficient.own[seen.ownAt[row * n + slot]], t, value);
        } else if (columns.block[j] < rows.block[i]) {
          stairs.back[placeOfBlock[rows.block[i]] * strides.back + seen.backAt[row * n + slot]] = value;
        } else {
          const closing = links.closingPlace.get(columns.block[j]) ?? -1;
          const link = linkAt(row, slot);
          stairs.direct[placeOfBlock[rows.block[i]] * strides.direct + link] = value;
          stairs.direct[closing * strides.direct + link] = -value;
          stairs.back[closing * strides.back + seen.backAt[row * n + slot]] = value;
        }
      } else if (rows.kind[i] === rowClass.long) {
        setVarying(coefficient.long[seen.longAt[row * n + slot]], t, value);
      }
    }
  }
  for (let i = 0; i < program.rows; i += 1) {
    if (rows.block[i] < 0) continue;
    const t = placeOfBlock[rows.block[i]];
    if (rows.kind[i] === rowClass.interior) {
      stairs.rhs[t * m + rows.place[i]] = rows.rhs[i];
      if (!(rows.slackWidth[i] > 0)) continue;
      const slot = rows.slackSlot[rows.place[i]];
      show(slot, t);
      setUpper(slot, t, rows.slackWidth[i]);
      setVarying(coefficient.own[seen.ownAt[rows.place[i] * n + slot]], t, 1);
    } else if (rows.kind[i] === rowClass.limit) {
      const limit = seen.limitOfRow[i];
      stairs.limitRhs[t * q + limit] = rows.rhs[i] / seen.limitDivisor[i];
      show(n + limit, t);
    }
  }
}

/** Writes what sizes and long rows say. */
export function fillSizes(
  program: LinearProgram,
  stairs: Staircase,
  seen: Occurrences,
  coefficient: Coefficients,
): void {
  const { columns, rows, strides, placeOfBlock, template } = stairs;
  const { starts, indices, values } = program;
  const links = template.direct.length - seen.direct.length;
  for (let z = 0; z < columns.sizes; z += 1) {
    const j = columns.sizeSource[z];
    stairs.sizeCost[z] = program.cost[j] * columns.sizeSign[z];
    stairs.sizeWidth[z] = columns.width[j];
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      const value = values[e] * columns.sizeSign[z] * rows.sign[i];
      if (rows.kind[i] === rowClass.long) stairs.corner[rows.place[i] * columns.sizes + z] = value;
      else if (rows.kind[i] === rowClass.interior) {
        const at = links + (seen.directAt.get(rows.place[i] * columns.sizes + z) ?? 0);
        stairs.direct[placeOfBlock[rows.block[i]] * strides.direct + at] = value;
      } else if (rows.kind[i] === rowClass.limit) {
        const limit = seen.limitOfRow[i];
        const term = seen.limits[limit].terms.findIndex((item) => item.size === z);
        const at = coefficient.limits[limit][term];
        if (at.varies) {
          const t = placeOfBlock[rows.block[i]];
          stairs.varying[t * strides.varying + at.at] = -value / seen.limitDivisor[i];
        }
      }
    }
  }
  for (let i = 0; i < program.rows; i += 1) {
    if (rows.kind[i] !== rowClass.long) continue;
    stairs.longRhs[rows.place[i]] = rows.rhs[i];
    stairs.longSlack[rows.place[i]] = rows.slackWidth[i];
  }
}
