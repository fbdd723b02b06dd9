import { chargeLeft, nothing_kW } from "./heat-sources.ts";
import type { HourState } from "./hour-state.ts";
import type { ReplayPlant } from "./replay-plant.ts";

/**
 * Raises boilers that would run below their least load to it. Their further heat takes the place of
 * other boilers on the network, then of its store's discharge, then charges the store where backup
 * may, then takes the place of the sun's heat; what is then over is fired and wasted.
 */
export function keepLeastLoads(plant: ReplayPlant, state: HourState, t: number): void {
  const { problem, rules } = plant;
  const { backups, stores } = problem;
  for (let b = 0; b < backups.length; b += 1) {
    const least_kW = state.leastBoiler_kW[b];
    const fired_kW = state.fired_kW[b];
    if (fired_kW <= 0 || fired_kW >= least_kW) continue;
    // Heat that pays for being made is electric, and no reason to make more of it than is taken.
    if (plant.backupPrice_per_kWh[b][t] < 0) continue;
    const { network, mayCharge } = backups[b];
    let over_kW = least_kW - fired_kW;
    state.fired_kW[b] = least_kW;

    for (let other = 0; other < backups.length && over_kW > nothing_kW; other += 1) {
      if (other === b || backups[other].network !== network) continue;
      const free_kW = state.fired_kW[other] - state.wasted_kW[other] - state.leastBoiler_kW[other];
      const less_kW = Math.min(over_kW, Math.max(0, free_kW));
      state.fired_kW[other] -= less_kW;
      over_kW -= less_kW;
    }
    for (const s of plant.storesOfNetwork[network]) {
      const taken_kW = state.discharge_kW[s];
      if (over_kW <= nothing_kW || taken_kW <= 0) continue;
      const less_kW = Math.min(taken_kW, over_kW / stores[s].dischargeEfficiency);
      const kept_kW = taken_kW - less_kW;
      const isOff = kept_kW <= nothing_kW;
      const cut_kW = isOff || kept_kW >= rules.storeLeastPower_kW[s] ? less_kW : 0;
      state.discharge_kW[s] = isOff ? 0 : taken_kW - cut_kW;
      over_kW -= cut_kW * stores[s].dischargeEfficiency;
    }
    if (mayCharge) {
      for (const s of plant.storesOfNetwork[network]) {
        const into_kW = Math.min(over_kW, chargeLeft(plant, state, s));
        if (into_kW <= nothing_kW || state.charge_kW[s] + into_kW < rules.storeLeastPower_kW[s]) continue;
        state.charge_kW[s] += into_kW;
        over_kW -= into_kW;
      }
    }
    over_kW -= leaveSun(plant, state, network, t, over_kW);
    state.wasted_kW[b] = over_kW > nothing_kW ? over_kW : 0;
  }
}

/** Turns mirrors away as far as their heat is used beyond what charges stores. @returns kW */
function leaveSun(plant: ReplayPlant, state: HourState, network: number, t: number, over_kW: number): number {
  let used_kW = state.sun_kW[network][t] - state.spare_kW[network];
  for (const s of plant.storesOfNetwork[network]) used_kW -= state.charge_kW[s];
  const less_kW = Math.max(0, Math.min(over_kW, used_kW));
  state.spare_kW[network] += less_kW;
  return less_kW;
}
