import type { DispatchCase, NewSizes } from "./case.ts";
import type { Formulation } from "./formulate.ts";
import type { HourlyResult, NetworkHours } from "./hourly-result.ts";
import type { Layout } from "./layout.ts";

/** An answer in the plant's own words: sizes of new plant and what runs in each block. */
export interface Plan {
  readonly sizes: NewSizes;
  readonly hours: HourlyResult;
  /** Heat of each backup by block, kW. */
  readonly backup_kW: readonly Float64Array[];
  /** Cold of each absorption chiller by block, kW. */
  readonly chilled_kW: readonly Float64Array[];
  /** Heat of each backup over the year, kWh. */
  readonly backup_kWh: Float64Array;
  /** Heat leaving the hot side of each step-down over the year, kWh. */
  readonly stepDown_kWh: Float64Array;
  /** By how much a year-long limit is exceeded: m², currency, kWh. */
  readonly stretch: { readonly land_m2: number; readonly budget: number; readonly fraction_kWh: number };
}

/** Sizes of new plant in an answer; fixed sizes come from the case. */
export function readSizes({ problem, layout }: Formulation, x: Float64Array): NewSizes {
  const read = (columns: Int32Array, least: readonly number[]) =>
    Float64Array.from(columns, (column, i) => (column < 0 ? least[i] : x[column]));
  return {
    fields_m2: read(
      layout.sizes.fields,
      problem.fields.map((field) => field.least_m2),
    ),
    stores_kWh: read(
      layout.sizes.stores,
      problem.stores.map((item) => item.size.least),
    ),
    chargers_kW: read(
      layout.sizes.chargers,
      problem.stores.map(({ charger }) => charger?.least ?? 0),
    ),
    stepDowns_kW: read(
      layout.sizes.stepDowns,
      problem.stepDowns.map((item) => item.size.least),
    ),
    chillers_kW: read(
      layout.sizes.chillers,
      problem.chillers.map((item) => item.size.least),
    ),
    backups_kW: read(
      layout.sizes.backups,
      problem.backups.map((item) => item.size.least),
    ),
  };
}

/**
 * Reads a cleaned answer. `rowDual` gives the marginal cost of heat by network and block, per kWh: the
 * dual of the balance, and of the least solar fraction, whose right-hand side grows with the demand. NaN
 * where the solver has no duals.
 */
export function readPlan(formulation: Formulation, x: Float64Array, rowDual: Float64Array | null): Plan {
  const { problem, layout } = formulation;
  const { blocks } = problem;
  const sizes = readSizes(formulation, x);
  const series = (columns: Int32Array, factor = 1) =>
    Float64Array.from(columns, (column) => (column < 0 ? 0 : factor * x[column]));
  const total = (parts: readonly Float64Array[]) => {
    const sum = new Float64Array(blocks);
    for (const part of parts) for (let t = 0; t < blocks; t += 1) sum[t] += part[t];
    return sum;
  };

  const networks: NetworkHours[] = problem.networks.map((network, k) => {
    const s = problem.stores.findIndex((store) => "network" in store.serves && store.serves.network === k);
    const zero = () => new Float64Array(blocks);
    const solar_kW = series(layout.solar[k]);
    const collected_kW = collected(problem, sizes, k);
    return {
      id: network.id,
      demand_kW: total([network.fixed_kW, ...movedHeat(problem, layout, k, x)]),
      solar_kW,
      backup_kW: total(problem.backups.map((b, i) => (b.network === k ? series(layout.backup[i]) : zero()))),
      charge_kW: s < 0 ? zero() : series(layout.charge[s]),
      discharge_kW: s < 0 ? zero() : series(layout.discharge[s], problem.stores[s].dischargeEfficiency),
      stepIn_kW: total(
        problem.stepDowns.map((item, i) =>
          item.to === k ? series(layout.stepDown[i], item.efficiency) : zero(),
        ),
      ),
      stepOut_kW: total(
        problem.stepDowns.map((item, i) => (item.from === k ? series(layout.stepDown[i]) : zero())),
      ),
      spill_kW: Float64Array.from(collected_kW, (heat, t) => Math.max(0, heat - solar_kW[t])),
      unmet_kW: series(layout.unmet[k]),
      content_kWh: s < 0 ? zero() : series(layout.content[s]),
      marginal_per_kWh: Float64Array.from(layout.rows.balance[k], (row, t) =>
        rowDual === null
          ? Number.NaN
          : rowDual[row] / (problem.weight[t] * problem.step_h) + allowance(formulation, rowDual),
      ),
    };
  });

  const cold = problem.cold.map((load, c) => {
    const s = problem.stores.findIndex((store) => "cold" in store.serves && store.serves.cold === c);
    const zero = () => new Float64Array(blocks);
    return {
      id: load.id,
      demand_kW: load.demand_kW,
      absorption_kW: total(
        problem.chillers.map((item, i) => (item.cold === c ? series(layout.chilled[i]) : zero())),
      ),
      electric_kW: series(layout.electricCold[c]),
      charge_kW: s < 0 ? zero() : series(layout.charge[s]),
      discharge_kW: s < 0 ? zero() : series(layout.discharge[s], problem.stores[s].dischargeEfficiency),
      content_kWh: s < 0 ? zero() : series(layout.content[s]),
      unmet_kW: series(layout.unmetCold[c]),
    };
  });
  const water = problem.water.map((order, w) => ({
    id: order.id,
    made_m3_h: series(layout.made[w]),
    order_m3_h: order.order_m3_h,
    unmet_m3_h: series(layout.unmetWater[w]),
    tank_m3: series(layout.tank[w]),
  }));
  const batches = problem.batches.map((batch, i) => ({
    id: batch.id,
    heat_kW: series(layout.batch[i]),
    unmet_kWh: series(layout.unmetBatch[i]),
  }));

  const overYear = (columns: Int32Array) => {
    let sum = 0;
    for (let t = 0; t < blocks; t += 1) {
      if (columns[t] >= 0) sum += x[columns[t]] * problem.weight[t] * problem.step_h;
    }
    return sum;
  };
  const over = (column: number) => (column < 0 ? 0 : x[column]);
  return {
    sizes,
    hours: {
      networks,
      cold,
      water,
      batches,
      electricity_kW: electricity(problem, layout, sizes, x),
      electricityPrice_per_kWh: problem.electricityPrice_per_kWh,
    },
    backup_kW: layout.backup.map((columns) => series(columns)),
    chilled_kW: layout.chilled.map((columns) => series(columns)),
    backup_kWh: Float64Array.from(layout.backup, overYear),
    stepDown_kWh: Float64Array.from(layout.stepDown, overYear),
    stretch: {
      land_m2: over(layout.stretch.land),
      budget: over(layout.stretch.budget),
      fraction_kWh: layout.yearFractions.reduce(
        (all, { stretch }) => all + over(stretch),
        over(layout.stretch.fraction),
      ),
    },
  };
}

/** What a kWh more of demand is worth because the least solar fraction then allows more backup; ≤ 0. */
function allowance({ problem, layout }: Formulation, rowDual: Float64Array): number {
  const { leastSolarFraction } = problem.limits;
  if (leastSolarFraction === null || layout.rows.fraction < 0) return 0;
  return (1 - leastSolarFraction) * rowDual[layout.rows.fraction];
}

/** Heat that a network's fields could give at the sizes, kW by block. */
export function collected(problem: DispatchCase, sizes: NewSizes, network: number): Float64Array {
  const sum = new Float64Array(problem.blocks);
  problem.fields.forEach((field, f) => {
    if (field.network !== network) return;
    const aperture_m2 = sizes.fields_m2[f] + field.existing_m2;
    for (let t = 0; t < problem.blocks; t += 1) sum[t] += aperture_m2 * field.yield_kW_per_m2[t];
  });
  return sum;
}

function movedHeat(problem: DispatchCase, layout: Layout, network: number, x: Float64Array): Float64Array[] {
  const read = (columns: Int32Array, factor: number) =>
    Float64Array.from(columns, (column) => (column < 0 ? 0 : factor * x[column]));
  const readTimes = (columns: Int32Array, heat: Float64Array) =>
    Float64Array.from(columns, (column, t) => (column < 0 ? 0 : heat[t] * x[column]));
  const readOver = (columns: Int32Array, cop: Float64Array) =>
    Float64Array.from(columns, (column, t) => (column < 0 ? 0 : (1 / cop[t]) * x[column]));
  return [
    ...problem.chillers.flatMap((item, i) =>
      item.network === network ? [readOver(layout.chilled[i], item.cop)] : [],
    ),
    ...problem.water.flatMap((item, w) =>
      item.network === network ? [readTimes(layout.made[w], item.heat_kWh_per_m3)] : [],
    ),
    ...problem.batches.flatMap((item, i) => (item.network === network ? [read(layout.batch[i], 1)] : [])),
  ];
}

/** Electric power that depends on the dispatch and the sizes; that of fixed loads is not in it. */
function electricity(problem: DispatchCase, layout: Layout, sizes: NewSizes, x: Float64Array): Float64Array {
  const sum = new Float64Array(problem.blocks);
  const add = (columns: Int32Array, factor: number) => {
    for (let t = 0; t < sum.length; t += 1) if (columns[t] >= 0) sum[t] += factor * x[columns[t]];
  };
  problem.cold.forEach((load, c) => {
    const columns = layout.electricCold[c];
    for (let t = 0; t < sum.length; t += 1)
      if (columns[t] >= 0) sum[t] += (1 / load.electricCop[t]) * x[columns[t]];
  });
  problem.chillers.forEach((item, i) => {
    add(layout.chilled[i], item.electricity_kWh_per_kWh);
  });
  problem.water.forEach((order, w) => {
    add(layout.made[w], order.electricity_kWh_per_m3);
  });
  problem.fields.forEach((field, f) => {
    const aperture_m2 = sizes.fields_m2[f] + field.existing_m2;
    for (let t = 0; t < sum.length; t += 1) sum[t] += aperture_m2 * field.parasitic_kW_per_m2[t];
  });
  return sum;
}
