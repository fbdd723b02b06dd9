import { hoursPerYear } from "../series.ts";
import type { Collector } from "../study/schema/collector.ts";

/** What a collector does in each hour. */
export interface CollectorHours {
  readonly yield_kW_per_m2: Float64Array;
  /** Part of the hour with the sun's centre above the horizon, 0 to 1. */
  readonly sunlitShare: Float64Array;
  /** 1 while stowed. */
  readonly stowed: Uint8Array;
  /** 1 on days of planned outage, by day. */
  readonly outageDays: Uint8Array;
}

/** Electricity of a year, per m² of aperture. */
export interface RunningPower {
  readonly parasitic_kW_per_m2: Float64Array;
  readonly parasitic_kWh_per_m2: number;
}

/**
 * Electricity that a collector draws: `parasitic_W_m2` in hours with useful heat, `tracking_W_m2` while the sun is up
 * and it is neither stowed nor out of use, both of the share of the field in use; and `blower_W_m2` in every hour, day
 * and night and on days out of use, but for storms in which the envelope is emptied.
 *
 * @returns a new array of 8760 hours
 */
export function runningPower(collector: Collector, hours: CollectorHours): RunningPower {
  const { availability = 1, blower_W_m2 = 0, tracking_W_m2 = 0, storm } = collector;
  const { yield_kW_per_m2, sunlitShare, stowed, outageDays } = hours;
  const running_kW = (availability * collector.parasitic_W_m2) / 1000;
  const tracking_kW = (availability * tracking_W_m2) / 1000;
  const blower_kW = blower_W_m2 / 1000;
  const parasitic_kW_per_m2 = new Float64Array(hoursPerYear);
  let runningHours = 0;
  let trackingHours = 0;
  let blowerHours = 0;
  for (let i = 0; i < hoursPerYear; i += 1) {
    const runs = yield_kW_per_m2[i]! > 0;
    const tracks = stowed[i] === 1 || outageDays[Math.floor(i / 24)] === 1 ? 0 : sunlitShare[i]!;
    const blows = !(stowed[i] === 1 && storm.stowing === "emptied");
    if (runs) runningHours += 1;
    trackingHours += tracks;
    if (blows) blowerHours += 1;
    parasitic_kW_per_m2[i] = (runs ? running_kW : 0) + tracking_kW * tracks + (blows ? blower_kW : 0);
  }
  return {
    parasitic_kW_per_m2,
    parasitic_kWh_per_m2: running_kW * runningHours + tracking_kW * trackingHours + blower_kW * blowerHours,
  };
}
