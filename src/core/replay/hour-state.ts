import type { NewSizes } from "../dispatch/case.ts";
import type { ReplayPlant } from "./replay-plant.ts";

/**
 * The plant at its sizes, what it holds, and the flows of the hour that is being run. Arrays are in
 * the order of the case's lists and are used again for every hour and every replay.
 */
export interface HourState {
  // Sizes, existing and new together.
  readonly aperture_m2: Float64Array;
  readonly capacity_kWh: Float64Array;
  readonly chargeLimit_kW: Float64Array;
  readonly dischargeLimit_kW: Float64Array;
  readonly exchanger_kW: Float64Array;
  readonly chiller_kW: Float64Array;
  readonly boiler_kW: Float64Array;
  /** Least power at which each boiler runs. */
  readonly leastBoiler_kW: Float64Array;
  /** By network, then block: heat that the fields could give. */
  readonly sun_kW: readonly Float64Array[];

  /** By chiller, then block: when it may draw heat, as in `draws`. */
  readonly chillerDraws: readonly Uint8Array[];

  // What the plant holds.
  readonly content_kWh: Float64Array;
  readonly tank_m3: Float64Array;
  /** By batch load and window: heat still due. */
  readonly due_kWh: readonly Float64Array[];
  readonly chillerRuns: Uint8Array;
  readonly waterRuns: Uint8Array;
  readonly mayCharge: Uint8Array;
  readonly mayDischarge: Uint8Array;

  // Flows of the hour, kW.
  /** All of them that begin each hour at 0, one after the other. */
  readonly flows: Float64Array;
  /** Collected heat without a use so far, by network. */
  readonly spare_kW: Float64Array;
  /** Heat asked for and not served so far, by network. */
  readonly need_kW: Float64Array;
  readonly stepDown_kW: Float64Array;
  readonly charge_kW: Float64Array;
  /** Taken from the store. */
  readonly discharge_kW: Float64Array;
  /** Heat that each boiler makes, and the part of it that nothing takes. */
  readonly fired_kW: Float64Array;
  readonly wasted_kW: Float64Array;
  readonly chilled_kW: Float64Array;
  /** Heat that a chiller draws to start. */
  readonly chillerStart_kW: Float64Array;
  readonly electricCold_kW: Float64Array;
  readonly unmetCold_kW: Float64Array;
  readonly made_m3_h: Float64Array;
  readonly waterStart_kW: Float64Array;
  readonly unmetWater_m3_h: Float64Array;
  readonly batch_kW: Float64Array;
  readonly unmet_kW: Float64Array;
  /** What must be made or given in this hour at least. */
  readonly mustChill_kW: Float64Array;
  readonly mustMake_m3_h: Float64Array;
  readonly mustBatch_kW: Float64Array;

  // Copies to go back to where an attempt fails.
  readonly markSpare_kW: Float64Array;
  readonly markStepDown_kW: Float64Array;
  readonly markDischarge_kW: Float64Array;
}

export function hourState({ problem }: ReplayPlant): HourState {
  const { networks, fields, stores, stepDowns, chillers, backups, cold, water, batches, blocks } = problem;
  const each = (items: readonly unknown[]) => new Float64Array(items.length);
  const lists = [
    stepDowns,
    stores,
    stores,
    backups,
    backups,
    chillers,
    chillers,
    cold,
    cold,
    water,
    water,
    batches,
  ];
  const flows = new Float64Array(lists.reduce((all, { length }) => all + length, 0));
  let next = 0;
  const flow = ({ length }: readonly unknown[]) => {
    next += length;
    return flows.subarray(next - length, next);
  };
  return {
    flows,
    aperture_m2: each(fields),
    capacity_kWh: each(stores),
    chargeLimit_kW: each(stores),
    dischargeLimit_kW: each(stores),
    exchanger_kW: each(stepDowns),
    chiller_kW: each(chillers),
    boiler_kW: each(backups),
    leastBoiler_kW: each(backups),
    sun_kW: networks.map(() => new Float64Array(blocks)),
    chillerDraws: chillers.map(() => new Uint8Array(blocks)),
    content_kWh: each(stores),
    tank_m3: each(water),
    due_kWh: batches.map(({ windows }) => each(windows)),
    chillerRuns: new Uint8Array(chillers.length),
    waterRuns: new Uint8Array(water.length),
    mayCharge: new Uint8Array(stores.length),
    mayDischarge: new Uint8Array(stores.length),
    spare_kW: each(networks),
    need_kW: each(networks),
    stepDown_kW: flow(stepDowns),
    charge_kW: flow(stores),
    discharge_kW: flow(stores),
    fired_kW: flow(backups),
    wasted_kW: flow(backups),
    chilled_kW: flow(chillers),
    chillerStart_kW: flow(chillers),
    electricCold_kW: flow(cold),
    unmetCold_kW: flow(cold),
    made_m3_h: flow(water),
    waterStart_kW: flow(water),
    unmetWater_m3_h: each(water),
    batch_kW: flow(batches),
    unmet_kW: each(networks),
    mustChill_kW: each(chillers),
    mustMake_m3_h: each(water),
    mustBatch_kW: each(batches),
    markSpare_kW: each(networks),
    markStepDown_kW: each(stepDowns),
    markDischarge_kW: each(stores),
  };
}

/** Puts the plant at new sizes beside what exists. */
export function setSizes(plant: ReplayPlant, state: HourState, sizes: NewSizes): void {
  const { problem, rules } = plant;
  const { fields, stores, stepDowns, chillers, backups, blocks } = problem;
  for (const sun_kW of state.sun_kW) sun_kW.fill(0);
  fields.forEach((field, f) => {
    const aperture_m2 = field.existing_m2 + sizes.fields_m2[f];
    state.aperture_m2[f] = aperture_m2;
    if (aperture_m2 === 0) return;
    const { yield_kW_per_m2 } = field;
    const sun_kW = state.sun_kW[field.network];
    for (let t = 0; t < blocks; t += 1) {
      if (yield_kW_per_m2[t] > 0) sun_kW[t] += aperture_m2 * yield_kW_per_m2[t];
    }
  });
  stores.forEach((store, s) => {
    state.capacity_kWh[s] = store.size.existing + sizes.stores_kWh[s];
    const charger_kW =
      store.charger === null ? Number.POSITIVE_INFINITY : store.charger.existing + sizes.chargers_kW[s];
    state.chargeLimit_kW[s] = Math.min(store.chargeLimit_kW, charger_kW);
    state.dischargeLimit_kW[s] = store.dischargeLimit_kW;
  });
  stepDowns.forEach(({ size }, i) => {
    state.exchanger_kW[i] = size.existing + sizes.stepDowns_kW[i];
  });
  chillers.forEach(({ size }, j) => {
    state.chiller_kW[j] = size.existing + sizes.chillers_kW[j];
  });
  backups.forEach(({ size }, b) => {
    const power_kW = size.existing + sizes.backups_kW[b];
    state.boiler_kW[b] = power_kW;
    // A boiler that is large enough for any hour is several; one of them runs as low as is wanted.
    state.leastBoiler_kW[b] =
      power_kW === Number.POSITIVE_INFINITY ? 0 : rules.backupLeastShare[b] * power_kW;
  });
  setChillerDraws(plant, state);
}

/** When a chiller may draw heat. */
export const draws = { never: 0, afterStores: 1, beforeStores: 2, asLoad: 3 } as const;

/**
 * A kWh of heat in a chiller saves electricity. Where that is worth more than backup heat costs, the
 * chiller is a load like any other; where nothing else uses the network's heat it comes before the
 * stores; else it has what is left when they are charged, or what a well-filled store can spare. Where
 * electricity is worth nothing it stands still unless the electric chiller is too small.
 */
function setChillerDraws(
  { problem, hasOtherUse, backupRoutes, backupPrice_per_kWh }: ReplayPlant,
  state: HourState,
): void {
  problem.chillers.forEach(({ cold, network, cop, electricity_kWh_per_kWh }, j) => {
    const { electricCop } = problem.cold[cold];
    const ways = backupRoutes[network].filter(({ backup }) => state.boiler_kW[backup] > 0);
    for (let t = 0; t < problem.blocks; t += 1) {
      const saved_kWh_per_kWhHeat = cop[t] * (1 / electricCop[t] - electricity_kWh_per_kWh);
      const worth_per_kWhHeat = saved_kWh_per_kWhHeat * problem.electricityPrice_per_kWh[t];
      let way: number = hasOtherUse[network] === 0 ? draws.beforeStores : draws.afterStores;
      if (!(worth_per_kWhHeat > 0)) way = draws.never;
      for (const { backup, route } of ways) {
        if (backupPrice_per_kWh[backup][t] / route.efficiency < worth_per_kWhHeat) way = draws.asLoad;
      }
      state.chillerDraws[j][t] = way;
    }
  });
}

/** Empty stores and tanks, everything due, nothing running: the start of a cycle. */
export function startEmpty({ problem, rules }: ReplayPlant, state: HourState): void {
  state.content_kWh.fill(0);
  state.tank_m3.fill(0);
  state.chillerRuns.fill(0);
  state.waterRuns.fill(0);
  state.mayCharge.fill(1);
  problem.stores.forEach((_, s) => {
    state.mayDischarge[s] = rules.storeDeadBand[s] > 0 ? 0 : 1;
  });
  problem.batches.forEach(({ heat_kWh }, i) => {
    state.due_kWh[i].fill(heat_kWh);
  });
}
