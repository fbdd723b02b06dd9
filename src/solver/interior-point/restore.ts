import type { LinearProgram } from "../../core/dispatch/program.ts";
import { baseOf } from "./base.ts";
import type { ReturnMap } from "./return-map.ts";
import { rowClass } from "./rows.ts";
import type { Scaling } from "./scale.ts";
import { stretches } from "./stretches.ts";
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
  const { returns, sizes } = point;
  const restoring = new Restoring(program, point, scaling);
  const { primal, rowDual, reducedCost } = restoring;
  stretches(program.columns, (from, to) => restoring.findValues(from, to));
  for (let z = 0; z < sizes.length; z += 1) {
    primal[returns.sizeSource[z]] += returns.sizeSign[z] * scaling.size[z] * scaling.rhs * sizes[z];
  }
  stretches(program.rows, (from, to) => restoring.findDuals(from, to));
  stretches(program.columns, (from, to) => restoring.findReducedCosts(from, to));
  return { objective: restoring.objective, primal, rowDual, reducedCost };
}

/** The way back column by column and row by row, in methods for the reason told in rows.ts. */
class Restoring {
  readonly primal: Float64Array;
  readonly rowDual: Float64Array;
  readonly reducedCost: Float64Array;
  objective = 0;
  private readonly program: LinearProgram;
  private readonly columnBlock: Int32Array;
  private readonly rowBlock: Int32Array;
  private readonly placeOfBlock: Int32Array;
  private readonly columnPlace: Int32Array;
  private readonly columnSign: Int8Array;
  private readonly kind: Uint8Array;
  private readonly rowPlace: Int32Array;
  private readonly rowSign: Int8Array;
  private readonly limitDivisor: Float64Array | null;
  private readonly X: Float64Array;
  private readonly Z: Float64Array;
  private readonly Y: Float64Array;
  private readonly eta: Float64Array;
  private readonly columns: number;
  private readonly rows: number;
  private readonly pairs: number;
  /** Scales of columns' values, and of rows', limits' and long rows' duals. */
  private readonly columnScale: Float64Array;
  private readonly rowScale: Float64Array;
  private readonly limitScale: Float64Array;
  private readonly longScale: Float64Array;

  constructor(program: LinearProgram, point: FoundPoint, scaling: Scaling) {
    const { columns, rows, structure } = program;
    const { returns } = point;
    this.program = program;
    this.columnBlock = structure?.columnBlock ?? new Int32Array(columns).fill(-1);
    this.rowBlock = structure?.rowBlock ?? new Int32Array(rows).fill(-1);
    this.primal = new Float64Array(columns);
    this.rowDual = new Float64Array(rows);
    this.reducedCost = new Float64Array(columns);
    this.placeOfBlock = point.placeOfBlock;
    this.columnPlace = returns.columnPlace;
    this.columnSign = returns.columnSign;
    this.kind = returns.rowClass;
    this.rowPlace = returns.rowPlace;
    this.rowSign = returns.rowSign;
    this.limitDivisor = returns.limitDivisor;
    this.X = point.X;
    this.Z = point.Z;
    this.Y = point.Y;
    this.eta = point.eta;
    this.columns = point.columns;
    this.rows = point.rows;
    this.pairs = point.columns + point.limits;
    this.columnScale = scaling.column.map((scale) => scale * scaling.rhs);
    this.rowScale = scaling.row.map((scale) => scale * scaling.cost);
    this.limitScale = scaling.limit.map((scale) => scale * scaling.cost);
    this.longScale = scaling.long.map((scale) => scale * scaling.cost);
  }

  findValues(from: number, to: number): void {
    for (let j = from; j < to; j += 1) this.primal[j] = this.valueOf(j);
  }

  findDuals(from: number, to: number): void {
    for (let i = from; i < to; i += 1) this.rowDual[i] = this.dualOf(i);
  }

  /** And the objective, of the values found. */
  findReducedCosts(from: number, to: number): void {
    const { cost } = this.program;
    for (let j = from; j < to; j += 1) {
      this.objective += cost[j] * this.primal[j];
      this.reducedCost[j] = this.reducedCostOf(j);
    }
  }

  private valueOf(j: number): number {
    const base = baseOf(this.program, j);
    const slot = this.columnPlace[j];
    const t = this.columnBlock[j];
    if (slot < 0 || t < 0) return base;
    return (
      base + this.columnSign[j] * this.columnScale[slot] * this.X[this.placeOfBlock[t] * this.pairs + slot]
    );
  }

  private dualOf(i: number): number {
    const kind = this.kind[i];
    const place = this.rowPlace[i];
    const sign = this.rowSign[i];
    if (kind === rowClass.gone) return 0;
    if (kind === rowClass.long)
      return sign * this.longScale[place] * multiplier(this.program, i, this.eta[place]);
    const t = this.placeOfBlock[this.rowBlock[i]];
    if (kind === rowClass.interior)
      return sign * this.rowScale[place] * multiplier(this.program, i, this.Y[t * this.rows + place]);
    const divisor = this.limitDivisor === null ? 1 : this.limitDivisor[i];
    return (-sign * this.limitScale[place] * this.Z[t * this.pairs + this.columns + place]) / divisor;
  }

  private reducedCostOf(j: number): number {
    const { cost, starts, indices, values } = this.program;
    let value = cost[j];
    for (let e = starts[j]; e < starts[j + 1]; e += 1) value -= values[e] * this.rowDual[indices[e]];
    return value;
  }
}

/** A one-sided row has a multiplier of one sign; rounding may leave the last digits of the other. */
function multiplier({ rowLower, rowUpper }: LinearProgram, row: number, y: number): number {
  const isOneSided = rowLower[row] === Number.NEGATIVE_INFINITY || rowUpper[row] === Number.POSITIVE_INFINITY;
  return isOneSided ? Math.min(0, y) : y;
}
