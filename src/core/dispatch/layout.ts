/**
 * Where each quantity of a dispatch problem stands in its linear program. Entries are column (or
 * row) numbers; −1 where the quantity is left out because it can only be zero, or held fixed.
 */
export interface Layout {
  /** Columns of new sizes, in the order of the case's lists. */
  readonly sizes: {
    readonly fields: Int32Array;
    readonly stores: Int32Array;
    /** By store. */
    readonly chargers: Int32Array;
    readonly stepDowns: Int32Array;
    readonly chillers: Int32Array;
    readonly backups: Int32Array;
  };
  /** By network, then block: collected heat that is used. */
  readonly solar: readonly Int32Array[];
  readonly unmet: readonly Int32Array[];
  /** By backup. */
  readonly backup: readonly Int32Array[];
  /** By store. */
  readonly charge: readonly Int32Array[];
  readonly discharge: readonly Int32Array[];
  readonly content: readonly Int32Array[];
  /** By step-down: heat leaving the hot side. */
  readonly stepDown: readonly Int32Array[];
  /** By chiller: cold made. */
  readonly chilled: readonly Int32Array[];
  /** By cooling load. */
  readonly electricCold: readonly Int32Array[];
  readonly unmetCold: readonly Int32Array[];
  /** By water order. */
  readonly made: readonly Int32Array[];
  readonly tank: readonly Int32Array[];
  readonly unmetWater: readonly Int32Array[];
  /** By batch load and block. */
  readonly batch: readonly Int32Array[];
  /** By batch load, window and block of the window: heat given so far; −1 at the last block, where it is due. */
  readonly batchContent: readonly (readonly Int32Array[])[];
  /** By batch load and window. */
  readonly unmetBatch: readonly Int32Array[];
  /** Columns that stretch a year-long limit. */
  readonly stretch: { land: number; budget: number; fraction: number };
  /** Where several years must each keep the least solar fraction: row and stretch of each. */
  readonly yearFractions: { readonly row: number; readonly stretch: number }[];
  readonly rows: {
    /** By network and block: the heat balance. */
    readonly balance: readonly Int32Array[];
    land: number;
    budget: number;
    fraction: number;
  };
}

export function emptyLayout(counts: {
  readonly blocks: number;
  readonly fields: number;
  readonly networks: number;
  readonly backups: number;
  readonly stores: number;
  readonly stepDowns: number;
  readonly chillers: number;
  readonly cold: number;
  readonly water: number;
  /** Lengths of the windows of each batch load. */
  readonly windows: readonly (readonly number[])[];
}): Layout {
  const none = (length: number) => new Int32Array(length).fill(-1);
  const each = (count: number) => Array.from({ length: count }, () => none(counts.blocks));
  return {
    sizes: {
      fields: none(counts.fields),
      stores: none(counts.stores),
      chargers: none(counts.stores),
      stepDowns: none(counts.stepDowns),
      chillers: none(counts.chillers),
      backups: none(counts.backups),
    },
    solar: each(counts.networks),
    unmet: each(counts.networks),
    backup: each(counts.backups),
    charge: each(counts.stores),
    discharge: each(counts.stores),
    content: each(counts.stores),
    stepDown: each(counts.stepDowns),
    chilled: each(counts.chillers),
    electricCold: each(counts.cold),
    unmetCold: each(counts.cold),
    made: each(counts.water),
    tank: each(counts.water),
    unmetWater: each(counts.water),
    batch: each(counts.windows.length),
    batchContent: counts.windows.map((lengths) => lengths.map(none)),
    unmetBatch: counts.windows.map((lengths) => none(lengths.length)),
    stretch: { land: -1, budget: -1, fraction: -1 },
    yearFractions: [],
    rows: { balance: each(counts.networks), land: -1, budget: -1, fraction: -1 },
  };
}
