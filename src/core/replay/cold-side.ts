import {
  chargeLeft,
  dischargeLeft,
  mark,
  nothing_kW,
  type Take,
  takeBack,
  takeOwnStored,
  takeSolar,
} from "./heat-sources.ts";
import { draws, type HourState } from "./hour-state.ts";
import type { ReplayPlant } from "./replay-plant.ts";
import type { SetPoints } from "./set-points.ts";

/** Cold that a chiller can make in this hour at most, and least where it runs. */
const startShare = (plant: ReplayPlant, state: HourState, j: number) =>
  state.chillerRuns[j] === 1 ? 0 : Math.min(1, plant.rules.chillerStartUp_h[j] / plant.problem.step_h);
const powerAt = (plant: ReplayPlant, state: HourState, j: number, t: number) =>
  state.chiller_kW[j] * plant.problem.chillers[j].capacityFactor[t];
const mostCold = (plant: ReplayPlant, state: HourState, j: number, t: number) =>
  powerAt(plant, state, j, t) * (1 - startShare(plant, state, j));
const leastCold = (plant: ReplayPlant, state: HourState, j: number, t: number) =>
  plant.rules.chillerLeastShare[j] * mostCold(plant, state, j, t);
const startHeat = (plant: ReplayPlant, state: HourState, j: number, t: number) =>
  (startShare(plant, state, j) * powerAt(plant, state, j, t)) / plant.problem.chillers[j].cop[t];

function coldMade(plant: ReplayPlant, state: HourState, c: number): number {
  let made_kW = 0;
  for (const j of plant.chillersOfCold[c]) made_kW += state.chilled_kW[j];
  return made_kW;
}

function coldStoreRoom(plant: ReplayPlant, state: HourState, c: number): number {
  let room_kW = 0;
  for (const s of plant.storesOfCold[c]) room_kW += chargeLeft(plant, state, s);
  return room_kW;
}

/** Cold that chillers must or, as loads, may make becomes heat asked for on their networks. */
export function askForCold(plant: ReplayPlant, state: HourState, t: number, plan: SetPoints | null): void {
  const { problem } = plant;
  for (let c = 0; c < problem.cold.length; c += 1) {
    const { demand_kW, electricLimit_kW } = problem.cold[c];
    let held_kW = 0;
    for (const s of plant.storesOfCold[c]) {
      held_kW += dischargeLeft(plant, state, s) * problem.stores[s].dischargeEfficiency;
    }
    let without_kW = Math.max(0, demand_kW[t] - held_kW);
    let short_kW = Math.max(0, without_kW - electricLimit_kW);
    for (const j of plant.chillersOfCold[c]) {
      state.mustChill_kW[j] = Math.min(short_kW, mostCold(plant, state, j, t));
      let cold_kW = state.mustChill_kW[j];
      if (plan !== null) cold_kW = Math.max(cold_kW, plan.chilled_kW[j]);
      else if (state.chillerDraws[j][t] === draws.asLoad) cold_kW = Math.max(cold_kW, without_kW);
      cold_kW = Math.min(cold_kW, mostCold(plant, state, j, t));
      const most_kW = demand_kW[t] + coldStoreRoom(plant, state, c) - coldMade(plant, state, c);
      cold_kW = allowed(Math.min(cold_kW, most_kW), leastCold(plant, state, j, t), most_kW, plan !== null);
      if (cold_kW <= nothing_kW) continue;
      run(plant, state, j, t, cold_kW);
      const { network } = problem.chillers[j];
      const cop = problem.chillers[j].cop[t];
      state.need_kW[network] += cold_kW / cop + state.chillerStart_kW[j];
      without_kW = Math.max(0, without_kW - cold_kW);
      short_kW = Math.max(0, short_kW - cold_kW);
    }
  }
}

/** Nothing, or the least at least; a set-point below half the least counts as nothing. */
export function allowed(want: number, least: number, most: number, isSetPoint: boolean): number {
  if (want <= nothing_kW) return 0;
  if (want >= least) return want;
  return least <= most && !(isSetPoint && want < least / 2) ? least : 0;
}

function run(plant: ReplayPlant, state: HourState, j: number, t: number, cold_kW: number): void {
  if (state.chilled_kW[j] === 0) state.chillerStart_kW[j] = startHeat(plant, state, j, t);
  state.chilled_kW[j] += cold_kW;
}

/** A store filled above this share may drive chillers that only save electricity. */
const plenty = 1 / 3;

function hasPlenty(plant: ReplayPlant, state: HourState, network: number): boolean {
  const stores = plant.storesOfNetwork[network];
  for (let n = 0; n < stores.length; n += 1) {
    if (state.content_kWh[stores[n]] > plenty * state.capacity_kWh[stores[n]]) return true;
  }
  return false;
}

/** Makes cold from the sun's spare heat, for the demand and for cold stores. */
export function chillFromSun(plant: ReplayPlant, state: HourState, t: number, isBeforeStores: boolean): void {
  const { problem } = plant;
  for (let j = 0; j < problem.chillers.length; j += 1) {
    if (state.chiller_kW[j] <= 0) continue;
    const { cold, network } = problem.chillers[j];
    if (state.chillerDraws[j][t] === draws.never) continue;
    const isEarly = state.chillerDraws[j][t] !== draws.afterStores || hasPlenty(plant, state, network);
    if (isBeforeStores && !isEarly) continue;
    const open_kW = problem.cold[cold].demand_kW[t] - coldMade(plant, state, cold);
    chill(plant, state, j, t, open_kW + coldStoreRoom(plant, state, cold), takeSolar);
  }
}

/** Makes cold that is asked for from a store that holds plenty, or whose heat has no other use. */
export function chillFromStores(plant: ReplayPlant, state: HourState, t: number): void {
  const { problem } = plant;
  for (let j = 0; j < problem.chillers.length; j += 1) {
    if (state.chiller_kW[j] <= 0) continue;
    const { cold, network } = problem.chillers[j];
    const way = state.chillerDraws[j][t];
    if (way === draws.never || (way === draws.afterStores && !hasPlenty(plant, state, network))) continue;
    const open_kW = problem.cold[cold].demand_kW[t] - coldMade(plant, state, cold);
    chill(plant, state, j, t, open_kW, takeOwnStored);
  }
}

function chill(
  plant: ReplayPlant,
  state: HourState,
  j: number,
  t: number,
  want_kW: number,
  take: Take,
): void {
  const { network } = plant.problem.chillers[j];
  const cop = plant.problem.chillers[j].cop[t];
  const cold_kW = Math.min(want_kW, mostCold(plant, state, j, t) - state.chilled_kW[j]);
  if (cold_kW <= nothing_kW) return;
  if (state.chilled_kW[j] > 0) {
    state.chilled_kW[j] += cop * take(plant, state, network, cold_kW / cop);
    return;
  }
  const least_kW = leastCold(plant, state, j, t);
  if (cold_kW < least_kW) return;
  const start_kW = startHeat(plant, state, j, t);
  if (least_kW === 0 && start_kW === 0) {
    const made_kW = cop * take(plant, state, network, cold_kW / cop);
    if (made_kW > 0) run(plant, state, j, t, made_kW);
    return;
  }
  mark(state);
  const made_kW = cop * (take(plant, state, network, cold_kW / cop + start_kW) - start_kW);
  if (made_kW <= nothing_kW || made_kW < least_kW) takeBack(state);
  else run(plant, state, j, t, made_kW);
}

/** Gives up cold beyond what must be made, where its heat is missing on the network. */
export function chillLess(plant: ReplayPlant, state: HourState, t: number): void {
  const { problem } = plant;
  for (let j = 0; j < problem.chillers.length; j += 1) {
    const { network } = problem.chillers[j];
    const cop = problem.chillers[j].cop[t];
    const missing_kW = state.need_kW[network];
    if (missing_kW <= nothing_kW || state.chilled_kW[j] === 0) continue;
    if (state.chillerDraws[j][t] === draws.asLoad) continue;
    const heat_kW = state.chilled_kW[j] / cop + state.chillerStart_kW[j];
    if (state.mustChill_kW[j] === 0 && heat_kW <= missing_kW) {
      state.need_kW[network] -= heat_kW;
      state.chilled_kW[j] = 0;
      state.chillerStart_kW[j] = 0;
      continue;
    }
    const kept_kW = Math.max(state.mustChill_kW[j], leastCold(plant, state, j, t));
    const less_kW = Math.min(missing_kW, Math.max(0, state.chilled_kW[j] - kept_kW) / cop);
    state.need_kW[network] -= less_kW;
    state.chilled_kW[j] -= less_kW * cop;
  }
}

/** Cold store, then electric chiller, then nothing; cold that is over goes into the store. */
export function closeCold(plant: ReplayPlant, state: HourState, t: number, plan: SetPoints | null): void {
  const { problem } = plant;
  for (let c = 0; c < problem.cold.length; c += 1) {
    let open_kW = problem.cold[c].demand_kW[t] - coldMade(plant, state, c);
    const limit_kW = problem.cold[c].electricLimit_kW;
    if (open_kW < 0) {
      chargeCold(plant, state, c, -open_kW, false);
      open_kW = 0;
    }
    if (plan !== null) {
      open_kW -= dischargeCold(plant, state, c, open_kW, plan.discharge_kW);
      const electric_kW = Math.max(0, Math.min(open_kW, limit_kW, plan.electricCold_kW[c]));
      state.electricCold_kW[c] = electric_kW;
      open_kW -= electric_kW;
    }
    open_kW -= dischargeCold(plant, state, c, open_kW, null);
    const electric_kW = Math.max(0, Math.min(open_kW, limit_kW - state.electricCold_kW[c]));
    state.electricCold_kW[c] += electric_kW;
    state.unmetCold_kW[c] = open_kW - electric_kW > nothing_kW ? open_kW - electric_kW : 0;
    if (plan === null || state.unmetCold_kW[c] > 0) continue;
    // The electric chiller charges what the plan has beyond what absorption gave.
    let planned_kW = 0;
    for (const s of plant.storesOfCold[c]) planned_kW += plan.charge_kW[s] - state.charge_kW[s];
    const more_kW = Math.min(planned_kW, limit_kW - state.electricCold_kW[c]);
    state.electricCold_kW[c] += chargeCold(plant, state, c, more_kW, true);
  }
}

/** @returns what the stores take, kW; surplus that is there already goes in whatever its power */
function chargeCold(
  plant: ReplayPlant,
  state: HourState,
  c: number,
  heat_kW: number,
  atLeast: boolean,
): number {
  let taken_kW = 0;
  for (const s of plant.storesOfCold[c]) {
    const into_kW = Math.min(heat_kW - taken_kW, chargeLeft(plant, state, s));
    if (into_kW <= nothing_kW || (atLeast && into_kW < plant.rules.storeLeastPower_kW[s])) continue;
    state.charge_kW[s] += into_kW;
    taken_kW += into_kW;
  }
  return taken_kW;
}

function dischargeCold(
  plant: ReplayPlant,
  state: HourState,
  c: number,
  want_kW: number,
  planned_kW: Float64Array | null,
): number {
  let got_kW = 0;
  for (const s of plant.storesOfCold[c]) {
    const { dischargeEfficiency } = plant.problem.stores[s];
    let taken_kW = Math.min(dischargeLeft(plant, state, s), (want_kW - got_kW) / dischargeEfficiency);
    if (planned_kW !== null) taken_kW = Math.min(taken_kW, planned_kW[s]);
    if (taken_kW <= nothing_kW) continue;
    if (state.discharge_kW[s] + taken_kW < plant.rules.storeLeastPower_kW[s]) continue;
    state.discharge_kW[s] += taken_kW;
    got_kW += taken_kW * dischargeEfficiency;
  }
  return got_kW;
}
