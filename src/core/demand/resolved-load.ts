/**
 * A load as the linear program and the reports need it: hourly figures at a network or a cooling
 * load. Arrays hold 8760 hours. Every kind in the study becomes one of these by its own physics.
 */
export type ResolvedLoad = FixedHeat | WaterOrder | BatchWindows | ColdDemand;

/** What a load makes of its heat in a year. */
export interface LoadProduct {
  readonly what: string;
  readonly amount: number;
  readonly unit: "t" | "m³" | "kWh";
}

/** Heat that is drawn when it is drawn: process heat, steam, continuous drying. */
export interface FixedHeat {
  readonly kind: "fixed-heat";
  readonly id: string;
  readonly network: string;
  readonly heat_kW: Float64Array;
  /** Electricity drawn with it, kW. */
  readonly electricity_kW: Float64Array | null;
  /** How the heat follows from what the user gave, one sentence with its figures. */
  readonly basis: string;
  /** What the load makes, where it is not the heat itself. */
  readonly products?: readonly LoadProduct[];
}

/** Water made from heat, into a tank from which the order is drawn. */
export interface WaterOrder {
  readonly kind: "water";
  readonly id: string;
  readonly network: string;
  /** Heat of a m³ made in each hour. */
  readonly heat_kWh_per_m3: Float64Array;
  readonly electricity_kWh_per_m3: number;
  readonly order_m3_h: Float64Array;
  readonly capacity_m3_h: number;
  readonly tank_m3: number;
  readonly basis: string;
  /** What the load makes, where it is not the heat itself. */
  readonly products?: readonly LoadProduct[];
}

/** Heat due within windows of hours. `opens` is the first hour index, `lasts_h` may run over the year's end. */
export interface BatchWindows {
  readonly kind: "batch";
  readonly id: string;
  readonly network: string;
  readonly windows: readonly { readonly opens: number; readonly lasts_h: number }[];
  readonly heat_kWh_per_batch: number;
  readonly power_kW: number;
  readonly basis: string;
  /** What the load makes, where it is not the heat itself. */
  readonly products?: readonly LoadProduct[];
}

/** Cold, served by absorption chillers, a cold store and the electric chiller. */
export interface ColdDemand {
  readonly kind: "cold";
  readonly id: string;
  readonly cold_kW: Float64Array;
  /** COP of the electric chiller, by hour. */
  readonly electricCop: Float64Array;
  /** Power of the electric chiller, kW of cold; null: large enough for any hour. */
  readonly electricLimit_kW: number | null;
  readonly basis: string;
}
