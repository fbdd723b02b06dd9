import type { NewSizes } from "../dispatch/case.ts";
import type { Plan } from "../dispatch/read-plan.ts";
import type { HourState } from "./hour-state.ts";
import type { ReplayPlant } from "./replay-plant.ts";
import { electricPower, heatDrawn, type ReplayTotals, unmetBatch } from "./replay-totals.ts";

/** A replay in the shape of the program's plan; marginal costs are NaN, no limit is stretched. */
export interface ReplayPlan extends Plan {
  /**
   * Heat that each backup makes, kW by block. It is more than the network's `backup_kW` where a
   * boiler must burn above what is taken; `backup_kWh` counts all of it.
   */
  readonly backup_kW: readonly Float64Array[];
  /** Heat leaving the hot side of each step-down, kW by block. */
  readonly stepDown_kW: readonly Float64Array[];
  /** Cold of each absorption chiller, kW by block. */
  readonly chilled_kW: readonly Float64Array[];
  readonly totals: ReplayTotals;
}

type Series = Float64Array;

export interface PlanWriter {
  readonly write: (state: HourState, t: number) => void;
  readonly finish: (sizes: NewSizes, totals: ReplayTotals) => ReplayPlan;
}

/** Keeps the hours of one replay. */
export function planWriter(plant: ReplayPlant): PlanWriter {
  const { problem } = plant;
  const { blocks } = problem;
  const zero = (): Series => new Float64Array(blocks);
  const networks = problem.networks.map(({ id }) => ({
    id,
    demand_kW: zero(),
    solar_kW: zero(),
    backup_kW: zero(),
    charge_kW: zero(),
    discharge_kW: zero(),
    stepIn_kW: zero(),
    stepOut_kW: zero(),
    spill_kW: zero(),
    unmet_kW: zero(),
    content_kWh: zero(),
    marginal_per_kWh: zero().fill(Number.NaN),
  }));
  const cold = problem.cold.map(({ id, demand_kW }) => ({
    id,
    demand_kW,
    absorption_kW: zero(),
    electric_kW: zero(),
    charge_kW: zero(),
    discharge_kW: zero(),
    content_kWh: zero(),
    unmet_kW: zero(),
  }));
  const water = problem.water.map(({ id, order_m3_h }) => ({
    id,
    made_m3_h: zero(),
    order_m3_h,
    unmet_m3_h: zero(),
    tank_m3: zero(),
  }));
  const batches = problem.batches.map(({ id, windows }) => ({
    id,
    heat_kW: zero(),
    unmet_kWh: new Float64Array(windows.length),
  }));
  const backup_kW = problem.backups.map(zero);
  const stepDown_kW = problem.stepDowns.map(zero);
  const chilled_kW = problem.chillers.map(zero);
  const electricity_kW = zero();
  const storeSide = problem.stores.map(({ serves }) =>
    "network" in serves ? networks[serves.network] : cold[serves.cold],
  );

  const write = (state: HourState, t: number): void => {
    networks.forEach((network, k) => {
      network.demand_kW[t] = heatDrawn(plant, state, k, t);
      network.solar_kW[t] = state.sun_kW[k][t] - state.spare_kW[k];
      network.spill_kW[t] = state.spare_kW[k];
      network.unmet_kW[t] = state.unmet_kW[k];
    });
    problem.backups.forEach(({ network }, b) => {
      backup_kW[b][t] = state.fired_kW[b];
      networks[network].backup_kW[t] += state.fired_kW[b] - state.wasted_kW[b];
    });
    problem.stores.forEach(({ dischargeEfficiency }, s) => {
      storeSide[s].charge_kW[t] += state.charge_kW[s];
      storeSide[s].discharge_kW[t] += dischargeEfficiency * state.discharge_kW[s];
      storeSide[s].content_kWh[t] += state.content_kWh[s];
    });
    problem.stepDowns.forEach(({ from, to, efficiency }, i) => {
      stepDown_kW[i][t] = state.stepDown_kW[i];
      networks[from].stepOut_kW[t] += state.stepDown_kW[i];
      networks[to].stepIn_kW[t] += efficiency * state.stepDown_kW[i];
    });
    problem.chillers.forEach((chiller, j) => {
      chilled_kW[j][t] = state.chilled_kW[j];
      cold[chiller.cold].absorption_kW[t] += state.chilled_kW[j];
    });
    cold.forEach((load, c) => {
      load.electric_kW[t] = state.electricCold_kW[c];
      load.unmet_kW[t] = state.unmetCold_kW[c];
    });
    water.forEach((order, w) => {
      order.made_m3_h[t] = state.made_m3_h[w];
      order.unmet_m3_h[t] = state.unmetWater_m3_h[w];
      order.tank_m3[t] = state.tank_m3[w];
    });
    batches.forEach((batch, i) => {
      batch.heat_kW[t] = state.batch_kW[i];
      if (plant.windowAt[i][t] >= 0 && plant.windowLeft[i][t] === 0)
        batch.unmet_kWh[plant.windowAt[i][t]] = unmetBatch(plant, state, i, t);
    });
    let power_kW = electricPower(plant, state, t);
    problem.fields.forEach(({ parasitic_kW_per_m2 }, f) => {
      power_kW += state.aperture_m2[f] * parasitic_kW_per_m2[t];
    });
    electricity_kW[t] = power_kW;
  };

  const overYear = (series: Series) => {
    let sum_kWh = 0;
    for (let t = 0; t < blocks; t += 1) sum_kWh += series[t] * problem.weight[t] * problem.step_h;
    return sum_kWh;
  };
  const finish = (sizes: NewSizes, totals: ReplayTotals): ReplayPlan => ({
    sizes,
    hours: {
      networks,
      cold,
      water,
      batches,
      electricity_kW,
      electricityPrice_per_kWh: problem.electricityPrice_per_kWh,
    },
    backup_kWh: totals.backupFired_kWh,
    stepDown_kWh: Float64Array.from(stepDown_kW, overYear),
    stretch: { land_m2: 0, budget: 0, fraction_kWh: 0 },
    backup_kW,
    stepDown_kW,
    chilled_kW,
    totals,
  });
  return { write, finish };
}
