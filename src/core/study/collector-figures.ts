import type { CollectorLosses } from "../collector/collector-year.ts";

/** Share of what a network's fields could give that it spills; every field spills alike. */
export function spilledShare(spill_kWh: number, collectable_kWh: number): number {
  return collectable_kWh > 0 ? Math.min(1, spill_kWh / collectable_kWh) : 0;
}

/** Where the light on a square metre of aperture goes: beam + diffuse − all losses = useful = spilled + used. */
export interface CollectorFigures {
  readonly id: string;
  readonly network: string;
  /** DNI of the year. */
  readonly beam_kWh_per_m2: number;
  /** On the aperture; 0 for collectors that use beam only. */
  readonly diffuse_kWh_per_m2: number;
  readonly useful_kWh_per_m2: number;
  /** The network's spill shared in proportion to useful heat; 0 where nothing is built. */
  readonly spilled_kWh_per_m2: number;
  /** Null where nothing is built. */
  readonly used_kWh_per_m2: number | null;
  readonly parasitic_kWh_per_m2: number;
  readonly runningHours: number;
  readonly stowedHours: number;
  /** At 1000 W/m² and the weather year's hottest hour; null where the loss relation cannot hold so much. */
  readonly stagnation_C: number | null;
  /** kWh per m² of aperture and year, in the order of the chain. */
  readonly losses: CollectorLosses;
}
