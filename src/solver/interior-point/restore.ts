import type { LinearProgram } from "../../core/dispatch/program.ts";
import type { BlockProgram } from "./block-program.ts";
import type { Iterate } from "./iterate.ts";
import type { BoundedProgram } from "./presolve.ts";

/** A point in the original program's columns, rows and units; reduced costs are recomputed from the row duals. */
export function restore(program: LinearProgram, bounded: BoundedProgram, p: BlockProgram, point: Iterate) {
  const primal = bounded.base.slice();
  p.columnOrder.forEach((j, n) => {
    primal[bounded.columnSource[j]] += bounded.columnSign[j] * p.columnScale[n] * point.v[n];
  });
  const rowDual = new Float64Array(program.rows);
  p.rowOrder.forEach((i, n) => {
    const slack = p.slack[n];
    // A one-sided row has a multiplier of one sign; rounding may leave the last digits of the other.
    const open = slack >= 0 && p.upper[slack] === Number.POSITIVE_INFINITY;
    const y = open ? Math.min(0, point.y[n]) : point.y[n];
    rowDual[bounded.rowSource[i]] = bounded.rowSign[i] * p.rowScale[n] * y;
  });
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
