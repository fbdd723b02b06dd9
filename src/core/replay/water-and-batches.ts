import { allowed } from "./cold-side.ts";
import { mark, nothing_kW, type Take, takeBack, takeSolar } from "./heat-sources.ts";
import type { HourState } from "./hour-state.ts";
import type { ReplayPlant } from "./replay-plant.ts";
import type { SetPoints } from "./set-points.ts";

const startShare = (plant: ReplayPlant, state: HourState, w: number) =>
  state.waterRuns[w] === 1 ? 0 : Math.min(1, plant.rules.waterStartUp_h[w] / plant.problem.step_h);
const mostWater = (plant: ReplayPlant, state: HourState, w: number) =>
  plant.problem.water[w].capacity_m3_h * (1 - startShare(plant, state, w));
const leastWater = (plant: ReplayPlant, state: HourState, w: number) =>
  plant.rules.waterLeastShare[w] * mostWater(plant, state, w);
const startHeat = (plant: ReplayPlant, state: HourState, w: number, t: number) =>
  startShare(plant, state, w) *
  plant.problem.water[w].capacity_m3_h *
  plant.problem.water[w].heat_kWh_per_m3[t];

/** What the tank can take in this block, beside what is drawn. */
function tankRoom({ problem }: ReplayPlant, state: HourState, w: number, t: number): number {
  const { tank_m3, order_m3_h } = problem.water[w];
  return Math.max(0, (tank_m3 - state.tank_m3[w]) / problem.step_h + order_m3_h[t]);
}

function make(plant: ReplayPlant, state: HourState, w: number, t: number, made_m3_h: number): void {
  if (state.made_m3_h[w] === 0) state.waterStart_kW[w] = startHeat(plant, state, w, t);
  state.made_m3_h[w] += made_m3_h;
}

/** Water that keeps the tank at its reserve, or that the plan makes, becomes heat asked for. */
export function askForWater(plant: ReplayPlant, state: HourState, t: number, plan: SetPoints | null): void {
  const { problem } = plant;
  for (let w = 0; w < problem.water.length; w += 1) {
    const { order_m3_h, network } = problem.water[w];
    const heat_kWh_per_m3 = problem.water[w].heat_kWh_per_m3[t];
    const missing_m3 = plant.waterReserve_m3[w][t] - state.tank_m3[w];
    const most_m3_h = Math.min(mostWater(plant, state, w), tankRoom(plant, state, w, t));
    const must_m3_h = Math.min(most_m3_h, Math.max(0, missing_m3 / problem.step_h + order_m3_h[t]));
    let planned_m3_h = 0;
    if (plan !== null) {
      // A tank that is fuller than planned needs less.
      const missing_m3_h = (plan.tank_m3[w] - state.tank_m3[w]) / problem.step_h + order_m3_h[t];
      planned_m3_h = Math.max(0, Math.min(most_m3_h, plan.made_m3_h[w], missing_m3_h));
    }
    const isSetPoint = must_m3_h <= nothing_kW;
    const least_m3_h = leastWater(plant, state, w);
    const made_m3_h = allowed(Math.max(must_m3_h, planned_m3_h), least_m3_h, most_m3_h, isSetPoint);
    state.mustMake_m3_h[w] = isSetPoint ? 0 : Math.min(made_m3_h, Math.max(must_m3_h, least_m3_h));
    if (made_m3_h <= 0) continue;
    make(plant, state, w, t, made_m3_h);
    state.need_kW[network] += made_m3_h * heat_kWh_per_m3 + state.waterStart_kW[w];
  }
}

/** Fills tanks from the sun's spare heat or from stores: a tank loses nothing. */
export function fillTanks(plant: ReplayPlant, state: HourState, t: number, take: Take): void {
  const { problem } = plant;
  for (let w = 0; w < problem.water.length; w += 1) {
    const { network } = problem.water[w];
    const heat_kWh_per_m3 = problem.water[w].heat_kWh_per_m3[t];
    const most_m3_h = Math.min(mostWater(plant, state, w), tankRoom(plant, state, w, t));
    const more_m3_h = most_m3_h - state.made_m3_h[w];
    if (more_m3_h * heat_kWh_per_m3 <= nothing_kW) continue;
    const least_m3_h = leastWater(plant, state, w);
    const start_kW = startHeat(plant, state, w, t);
    if (state.made_m3_h[w] > 0 || (least_m3_h === 0 && start_kW === 0)) {
      make(plant, state, w, t, take(plant, state, network, more_m3_h * heat_kWh_per_m3) / heat_kWh_per_m3);
      continue;
    }
    if (more_m3_h < least_m3_h) continue;
    mark(state);
    const heat_kW = take(plant, state, network, more_m3_h * heat_kWh_per_m3 + start_kW) - start_kW;
    if (heat_kW <= nothing_kW || heat_kW / heat_kWh_per_m3 < least_m3_h) takeBack(state);
    else make(plant, state, w, t, heat_kW / heat_kWh_per_m3);
  }
}

/** Gives up water where its heat is missing: down to `keepReserve`, else until the tank is dry. */
export function makeLess(plant: ReplayPlant, state: HourState, t: number, keepReserve: boolean): void {
  const { problem } = plant;
  for (let w = 0; w < problem.water.length; w += 1) {
    const { network, order_m3_h } = problem.water[w];
    const heat_kWh_per_m3 = problem.water[w].heat_kWh_per_m3[t];
    const missing_kW = state.need_kW[network];
    if (missing_kW <= nothing_kW || state.made_m3_h[w] === 0) continue;
    const kept_m3_h = keepReserve
      ? state.mustMake_m3_h[w]
      : Math.max(0, order_m3_h[t] - state.tank_m3[w] / problem.step_h);
    const heat_kW = state.made_m3_h[w] * heat_kWh_per_m3 + state.waterStart_kW[w];
    if (kept_m3_h === 0 && heat_kW <= missing_kW) {
      state.need_kW[network] -= heat_kW;
      state.made_m3_h[w] = 0;
      state.waterStart_kW[w] = 0;
      continue;
    }
    const least_m3_h = Math.max(kept_m3_h, leastWater(plant, state, w));
    const less_m3_h = Math.min(
      missing_kW / heat_kWh_per_m3,
      Math.max(0, state.made_m3_h[w] - Math.max(least_m3_h, nothing_kW)),
    );
    state.made_m3_h[w] -= less_m3_h;
    state.need_kW[network] -= less_m3_h * heat_kWh_per_m3;
  }
}

/** Heat of a batch that could not be given later any more, or that the plan gives, is asked for. */
export function askForBatches(plant: ReplayPlant, state: HourState, t: number, plan: SetPoints | null): void {
  const { problem } = plant;
  for (let i = 0; i < problem.batches.length; i += 1) {
    const window = plant.windowAt[i][t];
    if (window < 0) continue;
    const { power_kW, network } = problem.batches[i];
    const due_kW = state.due_kWh[i][window] / problem.step_h;
    const must_kW = Math.min(power_kW, Math.max(0, due_kW - plant.windowLeft[i][t] * power_kW));
    const planned_kW = plan === null ? 0 : Math.min(power_kW, due_kW, plan.batch_kW[i]);
    state.mustBatch_kW[i] = must_kW;
    state.batch_kW[i] = Math.max(must_kW, planned_kW);
    state.need_kW[network] += state.batch_kW[i];
  }
}

/** Gives batches the sun's spare heat before they are pressed. */
export function batchesFromSpare(plant: ReplayPlant, state: HourState, t: number): void {
  const { problem } = plant;
  for (let i = 0; i < problem.batches.length; i += 1) {
    const window = plant.windowAt[i][t];
    if (window < 0) continue;
    const { power_kW, network } = problem.batches[i];
    const most_kW = Math.min(power_kW, state.due_kWh[i][window] / problem.step_h);
    const more_kW = most_kW - state.batch_kW[i];
    if (more_kW > nothing_kW) state.batch_kW[i] += takeSolar(plant, state, network, more_kW);
  }
}

/** Puts off what the plan gives a batch without need, where its heat is missing. */
export function batchesLater(plant: ReplayPlant, state: HourState): void {
  const { problem } = plant;
  for (let i = 0; i < problem.batches.length; i += 1) {
    const { network } = problem.batches[i];
    const less_kW = Math.min(state.need_kW[network], state.batch_kW[i] - state.mustBatch_kW[i]);
    if (less_kW <= 0) continue;
    state.batch_kW[i] -= less_kW;
    state.need_kW[network] -= less_kW;
  }
}
