import type { Staircase } from "../staircase.ts";
import type { BorderPattern } from "./border-pattern.ts";
import type { Elimination } from "./elimination.ts";

/**
 * Arrays that the kernels share, block after block. Short names, since the kernels' text uses them. A
 * class for the reason told in rows.ts: the kernels of a process's second solve would start uncompiled.
 */
export class Work {
  /** Columns, then limits' slacks; their multipliers. Absent pairs are 1 and 0. */
  readonly X: Float64Array;
  readonly Z: Float64Array;
  /** Their direction; on the way what rows ask of a column, and what a product lacks, over x. */
  readonly DX: Float64Array;
  readonly DZ: Float64Array;
  /** Row duals and their direction; on the way the half-solved right-hand side. */
  readonly Y: Float64Array;
  readonly DY: Float64Array;
  readonly TH: Float64Array;
  /** 1 / D, the factor's entries, and L⁻¹·F by rows. */
  readonly DI: Float64Array;
  readonly LV: Float64Array;
  readonly G: Float64Array;
  readonly K: Float64Array;
  readonly V: Float64Array;
  readonly BK: Float64Array;
  readonly DR: Float64Array;
  readonly MK: Uint8Array;
  readonly LIVE: Uint8Array;
  readonly C: Float64Array;
  readonly B: Float64Array;
  readonly strides: Strides;
  /** Sums into the border's matrix, and into one value for each carried column. */
  readonly AC: Float64Array;
  readonly AW: Float64Array;
  /** One value for each carried column: its value, its direction. */
  readonly W: Float64Array;
  readonly DW: Float64Array;
  /** Sums and largest values that a sweep finds; see each kernel. */
  readonly OUT: Float64Array;

  constructor(stairs: Staircase, elimination: Elimination, pattern: BorderPattern, sums: number) {
    const { template, blocks, strides } = stairs;
    const { columns: n, rows: m, limits: q, carried } = template;
    const each = (count: number) => new Float64Array(blocks * count);
    this.X = each(n + q).fill(1);
    this.Z = each(n + q);
    this.DX = each(n + q);
    this.DZ = each(n + q);
    this.Y = new Float64Array((blocks + 1) * m);
    this.DY = new Float64Array((blocks + 1) * m);
    this.TH = each(n);
    this.DI = each(m);
    this.LV = each(elimination.stored);
    this.G = each(pattern.stored);
    this.K = stairs.constants;
    this.V = stairs.varying;
    this.BK = stairs.back;
    this.DR = stairs.direct;
    this.MK = stairs.mask;
    this.LIVE = stairs.live;
    this.C = stairs.cost;
    this.B = stairs.rhs;
    this.strides = new Strides(strides);
    this.AC = new Float64Array(Math.max(1, sums));
    this.AW = new Float64Array(Math.max(1, carried.length));
    this.W = new Float64Array(Math.max(1, carried.length));
    this.DW = new Float64Array(Math.max(1, carried.length));
    this.OUT = new Float64Array(16);
  }
}

class Strides {
  readonly varying: number;
  readonly back: number;
  readonly direct: number;
  readonly mask: number;
  readonly cost: number;

  constructor({ varying, back, direct, mask, cost }: Staircase["strides"]) {
    this.varying = varying;
    this.back = back;
    this.direct = direct;
    this.mask = mask;
    this.cost = cost;
  }
}
