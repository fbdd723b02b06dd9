import type { HourlyResult } from "./hourly-result.ts";

/**
 * Largest imbalance of any network in any hour, kW: solar + backup + discharge + stepIn + unmet
 * against demand + charge + stepOut, from the written hours alone.
 */
export function balanceResidual_kW(hours: HourlyResult): number {
  let worst = 0;
  for (const n of hours.networks) {
    for (let t = 0; t < n.demand_kW.length; t += 1) {
      const supply = n.solar_kW[t] + n.backup_kW[t] + n.discharge_kW[t] + n.stepIn_kW[t] + n.unmet_kW[t];
      const use = n.demand_kW[t] + n.charge_kW[t] + n.stepOut_kW[t];
      worst = Math.max(worst, Math.abs(supply - use));
    }
  }
  return worst;
}
