import { availableShare } from "../dispatch/case.ts";
import type { HeatRoute } from "./heat-routes.ts";
import type { HourState } from "./hour-state.ts";
import type { ReplayPlant } from "./replay-plant.ts";

/** Below this nothing is moved, kW. */
export const nothing_kW = 1e-9;

/** Takes heat of one kind to a network. @returns heat that arrives, kW */
export type Take = (plant: ReplayPlant, state: HourState, network: number, want_kW: number) => number;

/** What a route can still carry, counted at its source. */
function room(state: HourState, { steps, entering }: HeatRoute): number {
  let least_kW = Number.POSITIVE_INFINITY;
  for (let n = 0; n < steps.length; n += 1) {
    const i = steps[n];
    const left_kW = (state.exchanger_kW[i] - state.stepDown_kW[i]) / entering[n];
    if (left_kW < least_kW) least_kW = left_kW;
  }
  return least_kW;
}

function carry(state: HourState, { steps, entering }: HeatRoute, heat_kW: number): void {
  for (let n = 0; n < steps.length; n += 1) state.stepDown_kW[steps[n]] += heat_kW * entering[n];
}

/** Takes spare collected heat to a network, its own first. @returns heat that arrives, kW */
export function takeSolar(plant: ReplayPlant, state: HourState, network: number, want_kW: number): number {
  const routes = plant.routes[network];
  let got_kW = 0;
  for (let r = 0; r < routes.length; r += 1) {
    const route = routes[r];
    const { source, efficiency } = route;
    const spare_kW = state.spare_kW[source];
    if (spare_kW <= nothing_kW) continue;
    const heat_kW = Math.min(spare_kW, room(state, route), (want_kW - got_kW) / efficiency);
    if (heat_kW <= nothing_kW) continue;
    state.spare_kW[source] = spare_kW - heat_kW;
    carry(state, route, heat_kW);
    got_kW += heat_kW * efficiency;
  }
  return got_kW;
}

/** What a store could still deliver in this hour, kW before its discharge efficiency. */
export function dischargeLeft(plant: ReplayPlant, state: HourState, s: number): number {
  if (state.charge_kW[s] > 0 || state.mayDischarge[s] === 0) return 0;
  const held_kW = (plant.keep[s] * state.content_kWh[s]) / plant.problem.step_h;
  return Math.min(held_kW, state.dischargeLimit_kW[s]) - state.discharge_kW[s];
}

/** What a store could still take in this hour, kW before its charge efficiency. */
export function chargeLeft(plant: ReplayPlant, state: HourState, s: number): number {
  if (state.discharge_kW[s] > 0 || state.mayCharge[s] === 0) return 0;
  const { problem, keep } = plant;
  const free_kWh = state.capacity_kWh[s] - keep[s] * state.content_kWh[s];
  const most_kW = free_kWh / (problem.stores[s].chargeEfficiency * problem.step_h);
  return Math.max(0, Math.min(most_kW, state.chargeLimit_kW[s]) - state.charge_kW[s]);
}

/** Takes heat from stores to a network, its own first. @returns heat that arrives, kW */
export function takeStored(plant: ReplayPlant, state: HourState, network: number, want_kW: number): number {
  const routes = plant.routes[network];
  let got_kW = 0;
  for (let r = 0; r < routes.length && want_kW - got_kW > nothing_kW; r += 1) {
    got_kW += takeStoredBy(plant, state, routes[r], want_kW - got_kW);
  }
  return got_kW;
}

/** As `takeStored`, from the network's own stores alone. */
export function takeOwnStored(
  plant: ReplayPlant,
  state: HourState,
  network: number,
  want_kW: number,
): number {
  return takeStoredBy(plant, state, plant.routes[network][0], want_kW);
}

function takeStoredBy(plant: ReplayPlant, state: HourState, route: HeatRoute, want_kW: number): number {
  const stores = plant.storesOfNetwork[route.source];
  let got_kW = 0;
  for (let n = 0; n < stores.length; n += 1) {
    const s = stores[n];
    const { dischargeEfficiency } = plant.problem.stores[s];
    const left_kW = dischargeLeft(plant, state, s);
    if (left_kW <= nothing_kW) continue;
    const heat_kW = Math.min(
      left_kW * dischargeEfficiency,
      room(state, route),
      (want_kW - got_kW) / route.efficiency,
    );
    if (heat_kW <= nothing_kW) continue;
    const taken_kW = heat_kW / dischargeEfficiency;
    if (state.discharge_kW[s] + taken_kW < plant.rules.storeLeastPower_kW[s]) continue;
    state.discharge_kW[s] += taken_kW;
    carry(state, route, heat_kW);
    got_kW += heat_kW * route.efficiency;
  }
  return got_kW;
}

/** What a boiler can give in a block; an outage leaves nothing even of one without a limit. */
export function boilerPower_kW(
  { problem }: ReplayPlant,
  state: HourState,
  backup: number,
  t: number,
): number {
  const share = availableShare(problem.backups[backup], t);
  return share === 0 ? 0 : share * state.boiler_kW[backup];
}

/** Takes backup heat by one route. @returns heat that arrives, kW */
export function takeBackupBy(
  plant: ReplayPlant,
  state: HourState,
  t: number,
  { backup, route }: { readonly backup: number; readonly route: HeatRoute },
  want_kW: number,
): number {
  const heat_kW = Math.min(
    boilerPower_kW(plant, state, backup, t) - state.fired_kW[backup],
    room(state, route),
    want_kW / route.efficiency,
  );
  if (heat_kW <= nothing_kW) return 0;
  state.fired_kW[backup] += heat_kW;
  carry(state, route, heat_kW);
  return heat_kW * route.efficiency;
}

/**
 * Takes backup heat to a network, in the order given and then the cheapest way first. A boiler that would run below its least
 * load gives way to the others, and runs only where they cannot.
 *
 * @returns heat that arrives, kW
 */
export function takeBackup(
  plant: ReplayPlant,
  state: HourState,
  network: number,
  t: number,
  want_kW: number,
): number {
  const ways = plant.backupRoutes[network];
  if (ways.length === 1) return takeBackupBy(plant, state, t, ways[0], want_kW);
  let got_kW = 0;
  for (let pass = 0; pass < 2; pass += 1) {
    // Ways are few: the next cheapest is looked up each time rather than sorted.
    let after = Number.NEGATIVE_INFINITY;
    let afterWay = -1;
    for (let n = 0; n < ways.length && want_kW - got_kW > nothing_kW; n += 1) {
      let cheapest = Number.POSITIVE_INFINITY;
      let way = -1;
      for (let w = 0; w < ways.length; w += 1) {
        const cost = wayCost(plant, network, w, t);
        const isNext = cost > after || (cost === after && w > afterWay);
        if (isNext && cost < cheapest) {
          cheapest = cost;
          way = w;
        }
      }
      if (way < 0) break;
      after = cheapest;
      afterWay = way;
      const { backup, route } = ways[way];
      const fired_kW = state.fired_kW[backup];
      const tooLittle = fired_kW + (want_kW - got_kW) / route.efficiency < state.leastBoiler_kW[backup];
      if (pass === 0 && tooLittle) continue;
      got_kW += takeBackupBy(plant, state, t, ways[way], want_kW - got_kW);
    }
  }
  return got_kW;
}

/** Cost of a kWh of backup heat where it arrives, after its place in the order. */
function wayCost(plant: ReplayPlant, network: number, way: number, t: number): number {
  const { backup, route } = plant.backupRoutes[network][way];
  const cost = plant.backupPrice_per_kWh[backup][t] / route.efficiency;
  return plant.rules.backupOrder[backup]! * placesApart + cost;
}

/** More than any price of heat, so that a place counts before cost. */
const placesApart = 1e6;

/** Remembers sources and step-downs, so that an attempt can be taken back. */
export function mark(state: HourState): void {
  copy(state.spare_kW, state.markSpare_kW);
  copy(state.stepDown_kW, state.markStepDown_kW);
  copy(state.discharge_kW, state.markDischarge_kW);
}

export function takeBack(state: HourState): void {
  copy(state.markSpare_kW, state.spare_kW);
  copy(state.markStepDown_kW, state.stepDown_kW);
  copy(state.markDischarge_kW, state.discharge_kW);
}

function copy(from: Float64Array, to: Float64Array): void {
  for (let n = 0; n < from.length; n += 1) to[n] = from[n];
}
