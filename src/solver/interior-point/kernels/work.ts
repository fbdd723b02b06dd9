import type { Staircase } from "../staircase.ts";
import type { BorderPattern } from "./border-pattern.ts";
import type { Elimination } from "./elimination.ts";

/** Arrays that the kernels share, block after block. Short names, since the kernels' text uses them. */
export interface Work {
  /** Columns, then limits' slacks; their multipliers. Absent pairs are 1 and 0. */
  readonly X: Float64Array;
  readonly Z: Float64Array;
  readonly DX: Float64Array;
  /** What each product x·z should still become, over x. */
  readonly KP: Float64Array;
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
  readonly strides: Staircase["strides"];
  /** Sums into the border's matrix, and into one value for each carried column. */
  readonly AC: Float64Array;
  readonly AW: Float64Array;
  /** One value for each carried column: its value, its direction. */
  readonly W: Float64Array;
  readonly DW: Float64Array;
  /** Sums and largest values that a sweep finds; see each kernel. */
  readonly OUT: Float64Array;
}

export function emptyWork(
  stairs: Staircase,
  elimination: Elimination,
  pattern: BorderPattern,
  sums: number,
): Work {
  const { template, blocks, strides } = stairs;
  const { columns: n, rows: m, limits: q, carried } = template;
  const each = (count: number) => new Float64Array(blocks * count);
  return {
    X: each(n + q).fill(1),
    Z: each(n + q),
    DX: each(n + q),
    KP: each(n + q),
    Y: new Float64Array((blocks + 1) * m),
    DY: new Float64Array((blocks + 1) * m),
    TH: each(n),
    DI: each(m),
    LV: each(elimination.stored),
    G: each(pattern.stored),
    K: stairs.constants,
    V: stairs.varying,
    BK: stairs.back,
    DR: stairs.direct,
    MK: stairs.mask,
    LIVE: stairs.live,
    C: stairs.cost,
    B: stairs.rhs,
    strides,
    AC: new Float64Array(Math.max(1, sums)),
    AW: new Float64Array(Math.max(1, carried.length)),
    W: new Float64Array(Math.max(1, carried.length)),
    DW: new Float64Array(Math.max(1, carried.length)),
    OUT: new Float64Array(16),
  };
}
