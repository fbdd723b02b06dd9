import type { CollectorLosses, FrostFigures } from "../collector/collector-year.ts";

/** Below it a field is a trace that a solver leaves. */
export const leastField_m2 = 0.5;

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
  /** Null where nothing keeps the loop from freezing; missing from answers of earlier versions. */
  readonly frost?: FrostFigures | null;
  /** 0 where the study gives no water for washing; missing from answers of earlier versions. */
  readonly washingWater_L_per_m2?: number;
  /** The same field in a year of cloudless days of very clear air; missing from answers of earlier versions. */
  readonly cloudless?: { readonly beam_kWh_per_m2: number; readonly useful_kWh_per_m2: number };
  readonly runningHours: number;
  /** Highest useful heat of an hour of the weather year; missing from answers of earlier versions. */
  readonly peak_W_per_m2?: number;
  readonly stowedHours: number;
  /** At 1000 W/m² and the weather year's hottest hour; null where the loss relation cannot hold so much. */
  readonly stagnation_C: number | null;
  /** kWh per m² of aperture and year, in the order of the chain. */
  readonly losses: CollectorLosses;
  /** Useful heat in each year of the period, the film at its age; null where nothing is built or ages. */
  readonly useful_kWh_per_m2_byYear?: readonly number[] | null;
  /** Null where nothing is built or no named film ages. */
  readonly filmLives?: FilmLives | null;
  /** What small improvements would be worth, dearest first; null where nothing is built or the hours have no price. */
  readonly improvements: readonly CollectorImprovement[] | null;
}

/** Useful heat with films of other lives, per m² of aperture and year, at the film's mean state over each life. */
export interface FilmLives {
  readonly life_years: readonly number[];
  readonly useful_kWh_per_m2: readonly number[];
}

/** One property of a collector a step better, and what that is worth at the plant's own prices. */
export interface CollectorImprovement {
  readonly id: string;
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly unit: string;
  /** True where hours without heat come back whole: the worth is then far above what is left of it. */
  readonly wholeHours: boolean;
  /** More useful heat a year. */
  readonly useful_kWh_per_m2: number;
  /** Less annual cost for each m² of aperture, before the improvement is paid: at most so much. */
  readonly worth_per_m2_year: number;
  /** What it may add to the price of a m² and still pay; null where nothing has a life. */
  readonly mayCost_per_m2: number | null;
  /** How often that price is paid: the life of the film, or of the collector's longest-lived part. */
  readonly everyYears: number | null;
}
