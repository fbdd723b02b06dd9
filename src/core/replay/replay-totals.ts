import type { NewSizes } from "../dispatch/case.ts";
import type { HourState } from "./hour-state.ts";
import type { ReplayPlant } from "./replay-plant.ts";

/** Prices beside the problem's own at which a replay is to be counted, e.g. those of the first year. */
export interface PriceSet {
  /** By backup, then block, currency/kWh of heat. */
  readonly backups_per_kWh: readonly Float64Array[];
  readonly electricity_per_kWh: Float64Array;
}

/** Sums of a replay over the year. */
export interface ReplayTotals {
  /** Heat drawn by all loads. */
  readonly demand_kWh: number;
  /** Backup heat that reaches a network, as in the hours; `backupFired_kWh` is what is burnt for. */
  readonly backup_kWh: number;
  /** By backup. */
  readonly backupFired_kWh: Float64Array;
  /** The largest power of each. */
  readonly backupPeak_kW: Float64Array;
  /** By backup, at the problem's prices. */
  readonly backupCost: Float64Array;
  /** Electricity of chillers, desalination and running collectors. */
  readonly electricity_kWh: number;
  readonly electricityCost: number;
  /** For each further price set. */
  readonly atPrices: readonly { readonly backupCost: Float64Array; readonly electricityCost: number }[];
  readonly spilled_kWh: number;
  readonly unmetHeat_kWh: number;
  readonly unmetCold_kWh: number;
  readonly unmetWater_m3: number;
  readonly unmetBatch_kWh: number;
  /** What all that is unmet costs at the problem's price. */
  readonly unmetCost: number;
  /** Content of stores and tanks at the end, worth nothing. */
  readonly left_kWh: Float64Array;
  readonly left_m3: Float64Array;
  /** 1 − (backup + unmet heat) / demand, 0 without demand. */
  readonly solarFraction: number;
  /** What the linear program would pay for it: sizes, backup, electricity, unmet, tie-break. */
  readonly cost: number;
}

/** Sums of running a replay's hours; one object counts many replays, one after the other. */
export class Counter {
  private readonly plant: ReplayPlant;
  private readonly prices: readonly PriceSet[];
  private readonly parasitic: readonly { readonly kWh_per_m2: number; readonly cost_per_m2: Float64Array }[];
  private readonly fired_kWh: Float64Array;
  private readonly peak_kW: Float64Array;
  /** By price set, the problem's first. */
  private readonly backupCost: readonly Float64Array[];
  private readonly electricityCost: Float64Array;
  private demand_kWh = 0;
  private backup_kWh = 0;
  private electricity_kWh = 0;
  private spilled_kWh = 0;
  private unmetHeat_kWh = 0;
  private unmetCold_kWh = 0;
  private readonly unmetWater_m3: Float64Array;
  /** Heat that the missing water would have taken. */
  private unmetWater_kWh = 0;
  private unmetBatch_kWh = 0;
  private charged_kWh = 0;

  constructor(plant: ReplayPlant, more: readonly PriceSet[]) {
    const { problem } = plant;
    this.plant = plant;
    this.prices = [
      {
        backups_per_kWh: plant.backupPrice_per_kWh,
        electricity_per_kWh: problem.electricityPrice_per_kWh,
      },
      ...more,
    ];
    this.fired_kWh = new Float64Array(problem.backups.length);
    this.peak_kW = new Float64Array(problem.backups.length);
    this.backupCost = this.prices.map(() => new Float64Array(problem.backups.length));
    this.electricityCost = new Float64Array(this.prices.length);
    this.unmetWater_m3 = new Float64Array(problem.water.length);
    this.parasitic = problem.fields.map(({ parasitic_kW_per_m2 }) => {
      let kWh_per_m2 = 0;
      const cost_per_m2 = new Float64Array(this.prices.length);
      for (let t = 0; t < problem.blocks; t += 1) {
        const used_kWh = problem.weight[t] * problem.step_h * parasitic_kW_per_m2[t];
        kWh_per_m2 += used_kWh;
        for (let n = 0; n < this.prices.length; n += 1)
          cost_per_m2[n] += used_kWh * this.prices[n].electricity_per_kWh[t];
      }
      return { kWh_per_m2, cost_per_m2 };
    });
  }

  start(): void {
    this.fired_kWh.fill(0);
    this.peak_kW.fill(0);
    for (const cost of this.backupCost) cost.fill(0);
    this.electricityCost.fill(0);
    this.unmetWater_m3.fill(0);
    this.unmetWater_kWh = 0;
    this.demand_kWh = 0;
    this.backup_kWh = 0;
    this.electricity_kWh = 0;
    this.spilled_kWh = 0;
    this.unmetHeat_kWh = 0;
    this.unmetCold_kWh = 0;
    this.unmetBatch_kWh = 0;
    this.charged_kWh = 0;
  }

  count(state: HourState, t: number): void {
    const { plant, prices } = this;
    const { problem } = plant;
    const hours = problem.weight[t] * problem.step_h;
    for (let k = 0; k < problem.networks.length; k += 1) {
      this.demand_kWh += hours * heatDrawn(plant, state, k, t);
      this.spilled_kWh += hours * state.spare_kW[k];
      this.unmetHeat_kWh += hours * state.unmet_kW[k];
    }
    for (let b = 0; b < problem.backups.length; b += 1) {
      const fired_kWh = hours * state.fired_kW[b];
      if (fired_kWh === 0) continue;
      this.fired_kWh[b] += fired_kWh;
      if (state.fired_kW[b] > this.peak_kW[b]) this.peak_kW[b] = state.fired_kW[b];
      this.backup_kWh += fired_kWh - hours * state.wasted_kW[b];
      for (let n = 0; n < prices.length; n += 1)
        this.backupCost[n][b] += fired_kWh * prices[n].backups_per_kWh[b][t];
    }
    const electricity_kWh = hours * electricPower(plant, state, t);
    this.electricity_kWh += electricity_kWh;
    for (let n = 0; n < prices.length; n += 1)
      this.electricityCost[n] += electricity_kWh * prices[n].electricity_per_kWh[t];
    for (let c = 0; c < problem.cold.length; c += 1) this.unmetCold_kWh += hours * state.unmetCold_kW[c];
    for (let w = 0; w < problem.water.length; w += 1) {
      const unmet_m3 = hours * state.unmetWater_m3_h[w];
      this.unmetWater_m3[w] += unmet_m3;
      this.unmetWater_kWh += unmet_m3 * problem.water[w].heat_kWh_per_m3[t];
    }
    for (let s = 0; s < problem.stores.length; s += 1) this.charged_kWh += hours * state.charge_kW[s];
    for (let i = 0; i < problem.batches.length; i += 1)
      this.unmetBatch_kWh += problem.weight[t] * unmetBatch(plant, state, i, t);
  }

  totals(state: HourState, sizes: NewSizes): ReplayTotals {
    const { problem } = this.plant;
    const parasiticCost = this.prices.map((_, n) =>
      this.parasitic.reduce((all, { cost_per_m2 }, f) => all + state.aperture_m2[f] * cost_per_m2[n], 0),
    );
    const parasitic_kWh = this.parasitic.reduce(
      (all, { kWh_per_m2 }, f) => all + state.aperture_m2[f] * kWh_per_m2,
      0,
    );
    const unmetCost =
      problem.unmetPrice_per_kWh *
      (this.unmetHeat_kWh + this.unmetCold_kWh + this.unmetBatch_kWh + this.unmetWater_kWh);
    const backupCost = this.backupCost[0].slice();
    const electricityCost = this.electricityCost[0] + parasiticCost[0];
    return {
      demand_kWh: this.demand_kWh,
      backup_kWh: this.backup_kWh,
      backupFired_kWh: this.fired_kWh.slice(),
      backupPeak_kW: this.peak_kW.slice(),
      backupCost,
      electricity_kWh: this.electricity_kWh + parasitic_kWh,
      electricityCost,
      atPrices: this.prices.slice(1).map((_, n) => ({
        backupCost: this.backupCost[n + 1].slice(),
        electricityCost: this.electricityCost[n + 1] + parasiticCost[n + 1],
      })),
      spilled_kWh: this.spilled_kWh,
      unmetHeat_kWh: this.unmetHeat_kWh,
      unmetCold_kWh: this.unmetCold_kWh,
      unmetWater_m3: this.unmetWater_m3.reduce((all, water) => all + water, 0),
      unmetBatch_kWh: this.unmetBatch_kWh,
      unmetCost,
      left_kWh: state.content_kWh.slice(),
      left_m3: state.tank_m3.slice(),
      solarFraction:
        this.demand_kWh > 0 ? Math.max(0, 1 - (this.backup_kWh + this.unmetHeat_kWh) / this.demand_kWh) : 0,
      cost:
        sizesCost(this.plant, sizes) +
        backupCost.reduce((all, cost) => all + cost, 0) +
        electricityCost +
        unmetCost +
        problem.tieBreak_per_kWh * this.charged_kWh,
    };
  }
}

/** Heat of all loads on a network, kW. */
export function heatDrawn({ problem }: ReplayPlant, state: HourState, k: number, t: number): number {
  let heat_kW = problem.networks[k].fixed_kW[t];
  for (let j = 0; j < problem.chillers.length; j += 1) {
    const { network, cop } = problem.chillers[j];
    if (network === k) heat_kW += state.chilled_kW[j] / cop[t] + state.chillerStart_kW[j];
  }
  for (let w = 0; w < problem.water.length; w += 1) {
    const { network, heat_kWh_per_m3 } = problem.water[w];
    if (network === k) heat_kW += state.made_m3_h[w] * heat_kWh_per_m3[t] + state.waterStart_kW[w];
  }
  for (let i = 0; i < problem.batches.length; i += 1) {
    if (problem.batches[i].network === k) heat_kW += state.batch_kW[i];
  }
  return heat_kW;
}

/** Electric power of chillers and desalination, kW. */
export function electricPower({ problem }: ReplayPlant, state: HourState, t: number): number {
  let power_kW = 0;
  for (let c = 0; c < problem.cold.length; c += 1)
    power_kW += state.electricCold_kW[c] / problem.cold[c].electricCop[t];
  for (let j = 0; j < problem.chillers.length; j += 1)
    power_kW += state.chilled_kW[j] * problem.chillers[j].electricity_kWh_per_kWh;
  for (let w = 0; w < problem.water.length; w += 1)
    power_kW += state.made_m3_h[w] * problem.water[w].electricity_kWh_per_m3;
  return power_kW;
}

/** Heat of a batch that is missing when its window closes with this block, kWh. */
export function unmetBatch(plant: ReplayPlant, state: HourState, i: number, t: number): number {
  const window = plant.windowAt[i][t];
  return window >= 0 && plant.windowLeft[i][t] === 0 ? state.due_kWh[i][window] : 0;
}

function sizesCost({ problem }: ReplayPlant, sizes: NewSizes): number {
  const each = (values: Float64Array, costs: readonly number[]) =>
    costs.reduce((all, cost, i) => all + (values[i] > 0 ? cost * values[i] : 0), 0);
  const annual = (items: readonly { readonly size: { readonly annualCost_per_unit: number } }[]) =>
    items.map(({ size }) => size.annualCost_per_unit);
  return (
    each(
      sizes.fields_m2,
      problem.fields.map(({ collector }) => problem.collectors[collector].annualCost_per_m2),
    ) +
    each(sizes.stores_kWh, annual(problem.stores)) +
    each(
      sizes.chargers_kW,
      problem.stores.map(({ charger }) => charger?.annualCost_per_unit ?? 0),
    ) +
    each(sizes.stepDowns_kW, annual(problem.stepDowns)) +
    each(sizes.chillers_kW, annual(problem.chillers)) +
    each(sizes.backups_kW, annual(problem.backups))
  );
}
