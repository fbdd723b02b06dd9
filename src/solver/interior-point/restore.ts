import type { LinearProgram } from "../../core/dispatch/program.ts";
import { rowClass } from "./rows.ts";
import type { Scaling } from "./scale.ts";
import type { System } from "./system.ts";

/** A point in the program's own columns, rows and units; reduced costs are recomputed from the row duals. */
export function restore(program: LinearProgram, system: System, scaling: Scaling) {
  const { stairs, work, border } = system;
  const { columns, rows, template, placeOfBlock } = stairs;
  const { columns: n, rows: m, limits: q } = template;
  const primal = columns.base.slice();
  for (let j = 0; j < program.columns; j += 1) {
    const slot = columns.place[j];
    const t = columns.block[j];
    if (slot < 0 || t < 0) continue;
    primal[j] +=
      columns.sign[j] * scaling.column[slot] * scaling.rhs * work.X[placeOfBlock[t] * (n + q) + slot];
  }
  for (let z = 0; z < columns.sizes; z += 1) {
    primal[columns.sizeSource[z]] += columns.sizeSign[z] * scaling.size[z] * scaling.rhs * border.sizes.v[z];
  }
  const rowDual = new Float64Array(program.rows);
  // A one-sided row has a multiplier of one sign; rounding may leave the last digits of the other.
  const oneSided = (y: number, slackWidth: number) =>
    slackWidth === Number.POSITIVE_INFINITY ? Math.min(0, y) : y;
  for (let i = 0; i < program.rows; i += 1) {
    const place = rows.place[i];
    if (rows.kind[i] === rowClass.interior) {
      const y = oneSided(work.Y[placeOfBlock[rows.block[i]] * m + place], rows.slackWidth[i]);
      rowDual[i] = rows.sign[i] * scaling.row[place] * scaling.cost * y;
    } else if (rows.kind[i] === rowClass.limit) {
      const limit = stairs.limitOfRow[i];
      const y = -work.Z[placeOfBlock[rows.block[i]] * (n + q) + n + limit];
      rowDual[i] = (rows.sign[i] * scaling.limit[limit] * scaling.cost * y) / stairs.limitDivisor[i];
    } else if (rows.kind[i] === rowClass.long) {
      rowDual[i] =
        rows.sign[i] * scaling.long[place] * scaling.cost * oneSided(border.eta[place], rows.slackWidth[i]);
    }
  }
  const reducedCost = program.cost.slice();
  let objective = 0;
  for (let j = 0; j < program.columns; j += 1) {
    objective += program.cost[j] * primal[j];
    for (let e = program.starts[j]; e < program.starts[j + 1]; e += 1) {
      reducedCost[j] -= program.values[e] * rowDual[program.indices[e]];
    }
  }
  return { objective, primal, rowDual, reducedCost };
}
