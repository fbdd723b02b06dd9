import type { LinearProgram } from "../../core/dispatch/program.ts";
import { baseOf } from "./base.ts";
import type { ReturnMap } from "./return-map.ts";
import { rowClass } from "./rows.ts";
import type { Scaling } from "./scale.ts";
import type { System } from "./system.ts";

/** What the way back needs of a system, so that the rest of it can be let go. */
export interface FoundPoint {
  readonly returns: ReturnMap;
  readonly placeOfBlock: Int32Array;
  /** Slots of a block. */
  readonly columns: number;
  readonly rows: number;
  readonly limits: number;
  readonly X: Float64Array;
  readonly Z: Float64Array;
  readonly Y: Float64Array;
  readonly sizes: Float64Array;
  readonly eta: Float64Array;
}

export function foundPoint({ stairs, work, border }: System): FoundPoint {
  const { returns, placeOfBlock, template } = stairs;
  const { columns, rows, limits } = template;
  const { X, Z, Y } = work;
  return { returns, placeOfBlock, columns, rows, limits, X, Z, Y, sizes: border.sizes.v, eta: border.eta };
}

/** A point in the program's own columns, rows and units; reduced costs are recomputed from the row duals. */
export function restore(program: LinearProgram, point: FoundPoint, scaling: Scaling) {
  const { returns, placeOfBlock, columns: n, rows: m, limits: q, X, Z, Y, sizes, eta } = point;
  const { structure } = program;
  const primal = new Float64Array(program.columns);
  for (let j = 0; j < program.columns; j += 1) {
    primal[j] = baseOf(program, j);
    const slot = returns.columnPlace[j];
    const t = structure?.columnBlock[j] ?? -1;
    if (slot < 0 || t < 0) continue;
    primal[j] +=
      returns.columnSign[j] * scaling.column[slot] * scaling.rhs * X[placeOfBlock[t] * (n + q) + slot];
  }
  for (let z = 0; z < sizes.length; z += 1) {
    primal[returns.sizeSource[z]] += returns.sizeSign[z] * scaling.size[z] * scaling.rhs * sizes[z];
  }
  const rowDual = new Float64Array(program.rows);
  for (let i = 0; i < program.rows; i += 1) {
    const place = returns.rowPlace[i];
    const t = placeOfBlock[structure?.rowBlock[i] ?? 0];
    const scale = returns.rowSign[i] * scaling.cost;
    if (returns.rowClass[i] === rowClass.interior) {
      rowDual[i] = scale * scaling.row[place] * multiplier(program, i, Y[t * m + place]);
    } else if (returns.rowClass[i] === rowClass.limit) {
      const divisor = returns.limitDivisor?.[i] ?? 1;
      rowDual[i] = (-scale * scaling.limit[place] * Z[t * (n + q) + n + place]) / divisor;
    } else if (returns.rowClass[i] === rowClass.long) {
      rowDual[i] = scale * scaling.long[place] * multiplier(program, i, eta[place]);
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

/** A one-sided row has a multiplier of one sign; rounding may leave the last digits of the other. */
function multiplier({ rowLower, rowUpper }: LinearProgram, row: number, y: number): number {
  const isOneSided = rowLower[row] === Number.NEGATIVE_INFINITY || rowUpper[row] === Number.POSITIVE_INFINITY;
  return isOneSided ? Math.min(0, y) : y;
}
