import { largest } from "../series.ts";

/**
 * One dispatch problem in numbers: what is demanded, what may be built, what everything costs.
 * Blocks are the time steps, each `step_h` long and standing for `weight` like it in a year. The
 * full year has 8760 blocks of weight 1; typical days have 24 for each day. Every Float64Array has
 * one entry a block; powers are means over the block. Indices point into the lists of the case.
 */
export interface DispatchCase {
  readonly name: string;
  readonly blocks: number;
  readonly step_h: number;
  readonly weight: Float64Array;
  /** Runs of blocks over which stores and tanks end as they began. */
  readonly cycles: readonly Cycle[];
  readonly networks: readonly NetworkCase[];
  readonly collectors: readonly CollectorCase[];
  readonly fields: readonly FieldCase[];
  readonly stores: readonly StoreCase[];
  readonly stepDowns: readonly StepDownCase[];
  readonly cold: readonly ColdCase[];
  readonly chillers: readonly ChillerCase[];
  readonly water: readonly WaterCase[];
  readonly batches: readonly BatchCase[];
  readonly backups: readonly BackupCase[];
  /** Levelised, carbon included, currency/kWh. */
  readonly electricityPrice_per_kWh: Float64Array;
  readonly limits: LimitsCase;
  /** Runs of blocks that must each keep the least solar fraction; all blocks together where left out. */
  readonly fractionYears?: readonly Cycle[];
  /** Price of a kWh of heat or cold that is not delivered; of 1 m³ of water times its heat. */
  readonly unmetPrice_per_kWh: number;
  /** Small charge on a kWh stored, which breaks ties between equal dispatches. */
  readonly tieBreak_per_kWh: number;
}

export interface Cycle {
  readonly start: number;
  readonly length: number;
}

/** A size that the program chooses: new plant beside what exists, in m², kWh or kW. */
export interface SizeCase {
  readonly existing: number;
  readonly least: number;
  /** May be Infinity. */
  readonly most: number;
  readonly annualCost_per_unit: number;
  readonly initialCost_per_unit: number;
}

export interface NetworkCase {
  readonly id: string;
  /** Demand that is not the program's to move. */
  readonly fixed_kW: Float64Array;
}

/** Bounds and prices of a collector type, shared by its fields on several networks. */
export interface CollectorCase {
  readonly id: string;
  readonly least_m2: number;
  readonly most_m2: number;
  readonly annualCost_per_m2: number;
  readonly initialCost_per_m2: number;
  readonly groundCover: number;
}

/** Aperture of one collector type on one network. */
export interface FieldCase {
  readonly collector: number;
  readonly network: number;
  readonly existing_m2: number;
  /** Bounds of new aperture on this network. */
  readonly least_m2: number;
  readonly most_m2: number;
  readonly yield_kW_per_m2: Float64Array;
  /** Electric power of the field, also in blocks without yield, kW/m², by block. */
  readonly parasitic_kW_per_m2: Float64Array;
}

export interface StoreCase {
  readonly id: string;
  readonly serves: { readonly network: number } | { readonly cold: number };
  /** Share of the content kept over one hour. */
  readonly keep_per_h: number;
  readonly chargeEfficiency: number;
  readonly dischargeEfficiency: number;
  /** Heat or cold taken into the store, at most, whatever the charger. */
  readonly chargeLimit_kW: number;
  readonly dischargeLimit_kW: number;
  /** Charging power that has a size of its own; null where `chargeLimit_kW` alone holds. */
  readonly charger: SizeCase | null;
  readonly size: SizeCase;
}

export interface StepDownCase {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  readonly efficiency: number;
  readonly size: SizeCase;
}

export interface ColdCase {
  readonly id: string;
  readonly demand_kW: Float64Array;
  /** COP of the electric chiller, by block, above 0. */
  readonly electricCop: Float64Array;
  readonly electricLimit_kW: number;
}

/** Size in kW of cold at its rated point. */
export interface ChillerCase {
  readonly id: string;
  readonly cold: number;
  readonly network: number;
  /** Cold per heat, by block, above 0. */
  readonly cop: Float64Array;
  /** Cold that it can make per kW of its size, by block; 0 where it cannot run. */
  readonly capacityFactor: Float64Array;
  readonly electricity_kWh_per_kWh: number;
  readonly size: SizeCase;
}

export interface WaterCase {
  readonly id: string;
  readonly network: number;
  /** By block. */
  readonly heat_kWh_per_m3: Float64Array;
  readonly electricity_kWh_per_m3: number;
  readonly order_m3_h: Float64Array;
  readonly capacity_m3_h: number;
  readonly tank_m3: number;
}

export interface BatchCase {
  readonly id: string;
  readonly network: number;
  readonly power_kW: number;
  readonly heat_kWh: number;
  /**
   * Blocks of each window, in order, one after the other; a window may wrap the end of its cycle. Where
   * windows overlap, heat counts for each that is open.
   */
  readonly windows: readonly Int32Array[];
}

export interface BackupCase {
  readonly id: string;
  readonly network: number;
  /**
   * Levelised price of its heat by block, carbon included, currency/kWh. Where it is negative in any
   * block the power must be finite, or the program has no least cost.
   */
  readonly heatPrice_per_kWh: Float64Array;
  readonly mayCharge: boolean;
  /** Share of its power that can be had, by block; all of it in every block where left out. */
  readonly available?: Float64Array | undefined;
  /** `existing` may be Infinity: large enough for any hour. */
  readonly size: SizeCase;
}

export interface LimitsCase {
  readonly land_m2: number | null;
  readonly budget: number | null;
  readonly leastSolarFraction: number | null;
}

/** Lowest COP of a cooling load's chillers in a block in which they can run; null without any. */
export function lowestCop({ chillers }: DispatchCase, cold: number): number | null {
  let lowest = Number.POSITIVE_INFINITY;
  for (const chiller of chillers) {
    if (chiller.cold !== cold) continue;
    for (let t = 0; t < chiller.cop.length; t += 1)
      if (chiller.capacityFactor[t] > 0) lowest = Math.min(lowest, chiller.cop[t]);
  }
  return lowest === Number.POSITIVE_INFINITY ? null : lowest;
}

/** Share of a backup's power that can be had in a block. */
export function availableShare({ available }: BackupCase, t: number): number {
  return available === undefined ? 1 : available[t]!;
}

/** Heat power that a load on the network may add to the fixed demand, at most, kW. */
export function movableHeat_kW(problem: DispatchCase, network: number): number {
  let most = 0;
  for (const water of problem.water) {
    if (water.network === network) most += water.capacity_m3_h * largest(water.heat_kWh_per_m3);
  }
  for (const batch of problem.batches) if (batch.network === network) most += batch.power_kW;
  return most;
}

/** The same problem with every new size held at the given value. */
export function atSizes(problem: DispatchCase, sizes: NewSizes): DispatchCase {
  const held = (size: SizeCase, value: number): SizeCase => ({ ...size, least: value, most: value });
  return {
    ...problem,
    collectors: problem.collectors.map((collector) => ({
      ...collector,
      least_m2: 0,
      most_m2: Number.POSITIVE_INFINITY,
    })),
    fields: problem.fields.map((field, i) => ({
      ...field,
      least_m2: sizes.fields_m2[i],
      most_m2: sizes.fields_m2[i],
    })),
    stores: problem.stores.map((store, i) => ({
      ...store,
      size: held(store.size, sizes.stores_kWh[i]),
      charger: store.charger === null ? null : held(store.charger, sizes.chargers_kW[i]),
    })),
    stepDowns: problem.stepDowns.map((item, i) => ({
      ...item,
      size: held(item.size, sizes.stepDowns_kW[i]),
    })),
    chillers: problem.chillers.map((item, i) => ({ ...item, size: held(item.size, sizes.chillers_kW[i]) })),
    backups: problem.backups.map((item, i) => ({ ...item, size: held(item.size, sizes.backups_kW[i]) })),
  };
}

/** Sizes of new plant, in the order of the case's lists. */
export interface NewSizes {
  readonly fields_m2: Float64Array;
  readonly stores_kWh: Float64Array;
  /** By store; 0 where a store has no charger. */
  readonly chargers_kW: Float64Array;
  readonly stepDowns_kW: Float64Array;
  readonly chillers_kW: Float64Array;
  readonly backups_kW: Float64Array;
}

/** The same problem without limits over the year. */
export function unlimited(problem: DispatchCase): DispatchCase {
  return { ...problem, limits: { land_m2: null, budget: null, leastSolarFraction: null } };
}
