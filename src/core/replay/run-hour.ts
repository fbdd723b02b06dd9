import { askForCold, chillFromStores, chillFromSun, chillLess, closeCold } from "./cold-side.ts";
import { planFollower } from "./follow-plan.ts";
import {
  chargeLeft,
  mark,
  nothing_kW,
  takeBack,
  takeBackup,
  takeOwnStored,
  takeSolar,
  takeStored,
} from "./heat-sources.ts";
import type { HourState } from "./hour-state.ts";
import { keepLeastLoads } from "./least-loads.ts";
import type { ReplayPlant } from "./replay-plant.ts";
import type { SetPoints } from "./set-points.ts";
import {
  askForBatches,
  askForWater,
  batchesFromSpare,
  batchesLater,
  fillTanks,
  makeLess,
} from "./water-and-batches.ts";

/**
 * One hour of the controller of docs/methods/replay.md, in the order in which it decides. With a
 * plan it first follows the plan's set-points and corrects what comes otherwise in the same order.
 */
export function hourRunner(plant: ReplayPlant) {
  const follow = planFollower(plant);
  const { problem, rules } = plant;
  const { networks, stores } = problem;
  const { hotFirst } = rules;

  const serveDirectly = (state: HourState) => {
    for (let k = 0; k < networks.length; k += 1) {
      const heat_kW = Math.min(state.spare_kW[k], state.need_kW[k]);
      state.spare_kW[k] -= heat_kW;
      state.need_kW[k] -= heat_kW;
    }
  };
  /** Most hours of a year have none, and then nothing that lives on it need be asked. */
  const hasSpare = (state: HourState) => {
    for (let k = 0; k < networks.length; k += 1) if (state.spare_kW[k] > nothing_kW) return true;
    return false;
  };
  const serve = (state: HourState, k: number, heat_kW: number) => {
    state.need_kW[k] = Math.max(0, state.need_kW[k] - heat_kW);
  };
  const storeSpare = (state: HourState) => {
    for (const k of hotFirst) {
      for (const s of plant.storesOfNetwork[k]) {
        const room_kW = chargeLeft(plant, state, s);
        if (room_kW <= nothing_kW) continue;
        const least_kW = rules.storeLeastPower_kW[s];
        if (least_kW > 0) mark(state);
        const heat_kW = takeSolar(plant, state, k, room_kW);
        if (state.charge_kW[s] + heat_kW < least_kW) takeBack(state);
        else state.charge_kW[s] += heat_kW;
      }
    }
  };
  const serveFromStores = (state: HourState) => {
    for (const k of hotFirst) {
      if (state.need_kW[k] <= nothing_kW) continue;
      serve(state, k, takeOwnStored(plant, state, k, state.need_kW[k]));
    }
    for (const k of hotFirst) {
      if (state.need_kW[k] > nothing_kW) serve(state, k, takeStored(plant, state, k, state.need_kW[k]));
    }
  };

  return (state: HourState, t: number, plan: SetPoints | null): void => {
    const { flows } = state;
    // A loop: `fill` of short arrays costs more than the hour's arithmetic.
    for (let n = 0; n < flows.length; n += 1) flows[n] = 0;
    for (let k = 0; k < networks.length; k += 1) {
      state.spare_kW[k] = state.sun_kW[k][t];
      state.need_kW[k] = networks[k].fixed_kW[t];
    }
    askForBatches(plant, state, t, plan);
    askForWater(plant, state, t, plan);
    askForCold(plant, state, t, plan);

    serveDirectly(state);
    if (plan !== null) follow(state, plan, t);
    for (const k of hotFirst) {
      if (state.need_kW[k] > nothing_kW) serve(state, k, takeSolar(plant, state, k, state.need_kW[k]));
    }

    if (hasSpare(state)) {
      batchesFromSpare(plant, state, t);
      fillTanks(plant, state, t, takeSolar);
      chillFromSun(plant, state, t, true);
      storeSpare(state);
      chillFromSun(plant, state, t, false);
    }

    if (plan !== null) {
      chillLess(plant, state, t);
      batchesLater(plant, state);
      makeLess(plant, state, t, true);
    }
    serveFromStores(state);
    if (plan === null) {
      fillTanks(plant, state, t, takeOwnStored);
      chillFromStores(plant, state, t);
    }
    for (const k of hotFirst) {
      if (state.need_kW[k] > nothing_kW) serve(state, k, takeBackup(plant, state, k, t, state.need_kW[k]));
    }
    keepLeastLoads(plant, state, t);
    makeLess(plant, state, t, false);
    for (let k = 0; k < networks.length; k += 1) {
      state.unmet_kW[k] = state.need_kW[k] > nothing_kW ? state.need_kW[k] : 0;
    }
    closeCold(plant, state, t, plan);
    advance(state, t);
  };

  function advance(state: HourState, t: number): void {
    const { step_h } = problem;
    for (let s = 0; s < stores.length; s += 1) {
      const stored_kW = stores[s].chargeEfficiency * state.charge_kW[s] - state.discharge_kW[s];
      const content_kWh = plant.keep[s] * state.content_kWh[s] + stored_kW * step_h;
      const capacity_kWh = state.capacity_kWh[s];
      state.content_kWh[s] = content_kWh <= 1e-9 * capacity_kWh ? 0 : Math.min(content_kWh, capacity_kWh);
      const band = rules.storeDeadBand[s];
      if (band === 0) continue;
      if (state.content_kWh[s] === 0) state.mayDischarge[s] = 0;
      else if (state.content_kWh[s] >= band * capacity_kWh) state.mayDischarge[s] = 1;
      if (state.content_kWh[s] >= (1 - 1e-9) * capacity_kWh) state.mayCharge[s] = 0;
      else if (state.content_kWh[s] <= (1 - band) * capacity_kWh) state.mayCharge[s] = 1;
    }
    for (let w = 0; w < problem.water.length; w += 1) {
      const { order_m3_h, tank_m3 } = problem.water[w];
      const after_m3 = state.tank_m3[w] + (state.made_m3_h[w] - order_m3_h[t]) * step_h;
      const missing_m3 = after_m3 < -1e-9 ? -after_m3 : 0;
      state.unmetWater_m3_h[w] = missing_m3 / step_h;
      state.tank_m3[w] = Math.min(tank_m3, Math.max(0, after_m3));
      state.waterRuns[w] = state.made_m3_h[w] > 0 ? 1 : 0;
    }
    for (let i = 0; i < problem.batches.length; i += 1) {
      const window = plant.windowAt[i][t];
      if (window < 0) continue;
      const due_kWh = state.due_kWh[i][window] - state.batch_kW[i] * step_h;
      state.due_kWh[i][window] = due_kWh < 1e-9 * problem.batches[i].heat_kWh ? 0 : due_kWh;
    }
    for (let j = 0; j < problem.chillers.length; j += 1)
      state.chillerRuns[j] = state.chilled_kW[j] > 0 ? 1 : 0;
  }
}
