import { BatchChains } from "./batch-chains.ts";
import { availableShare, type DispatchCase, type SizeCase } from "./case.ts";
import { emptyLayout, type Layout } from "./layout.ts";
import { chargeRowNeeded, hasNegativePrice, isAlwaysMet } from "./left-out.ts";
import type { LinearProgram } from "./program.ts";
import { ProgramBuilder } from "./program-builder.ts";
import { addYearLimits } from "./year-limits.ts";

export interface Formulation {
  readonly problem: DispatchCase;
  readonly program: LinearProgram;
  readonly layout: Layout;
}

export interface FormulateOptions {
  /** Keeps a column for sizes that are fixed, so that their bounds can be opened later. */
  readonly keepSizeColumns?: boolean;
}

/** What the parts of the formulation share while it is written. */
export interface Draft {
  readonly problem: DispatchCase;
  readonly builder: ProgramBuilder;
  readonly layout: Layout;
  /** Hours that a block stands for in a year. */
  readonly hours: Float64Array;
  /** Cost of everything held fixed; becomes a column fixed at 1. */
  constant: number;
}

/**
 * Writes the linear program of docs/methods/linear-program.md for a dispatch problem.
 *
 * Rows are equations for balances and states, inequalities for what the sizes allow. Left out are
 * columns that can only be zero (solar heat at night, unmet heat beside a boiler that is large
 * enough) and rows that cannot bind. Blocks are written one after the other, so that the matrix is
 * a staircase.
 */
export function formulate(problem: DispatchCase, options: FormulateOptions = {}): Formulation {
  const { blocks, networks, fields, backups, stores, stepDowns, chillers, cold, water, batches } = problem;
  const layout = emptyLayout({
    blocks,
    networks: networks.length,
    fields: fields.length,
    backups: backups.length,
    stores: stores.length,
    stepDowns: stepDowns.length,
    chillers: chillers.length,
    cold: cold.length,
    water: water.length,
    windows: batches.map((batch) => batch.windows.map((window) => window.length)),
  });
  const draft: Draft = {
    problem,
    builder: new ProgramBuilder(),
    layout,
    hours: Float64Array.from(problem.weight, (weight) => weight * problem.step_h),
    constant: 0,
  };

  addSizes(draft, options.keepSizeColumns === true);
  addBlocks(draft, options.keepSizeColumns === true);
  addYearLimits(draft);
  if (draft.constant !== 0) {
    draft.builder.column(draft.builder.family("constant"), -1, draft.constant, 1, 1);
  }
  return { problem, layout, program: draft.builder.assemble(problem.name) };
}

/** Levelised cost of running a field's parasitics for a year, currency/m². */
export function parasiticCost_per_m2(problem: DispatchCase, field: number): number {
  const { parasitic_kW_per_m2 } = problem.fields[field];
  let cost = 0;
  for (let t = 0; t < problem.blocks; t += 1) {
    cost += problem.weight[t] * problem.step_h * problem.electricityPrice_per_kWh[t] * parasitic_kW_per_m2[t];
  }
  return cost;
}

function addSizes(draft: Draft, keepSizeColumns: boolean): void {
  const { problem, builder, layout } = draft;
  const add = (name: string, least: number, most: number, cost: number) => {
    if (least === most && !keepSizeColumns) {
      draft.constant += least * cost;
      return -1;
    }
    return builder.column(builder.family(name), -1, cost, least, most);
  };
  const addSize = (name: string, size: SizeCase) =>
    add(name, size.least, size.most, size.annualCost_per_unit);

  problem.fields.forEach((field, f) => {
    const collector = problem.collectors[field.collector];
    const parasitic = parasiticCost_per_m2(problem, f);
    draft.constant += field.existing_m2 * parasitic;
    const name = `aperture.${collector.id}.${problem.networks[field.network].id}`;
    layout.sizes.fields[f] = add(
      name,
      field.least_m2,
      field.most_m2,
      collector.annualCost_per_m2 + parasitic,
    );
  });
  problem.stores.forEach((store, s) => {
    layout.sizes.stores[s] = addSize(`capacity.${store.id}`, store.size);
  });
  problem.stores.forEach(({ id, charger }, s) => {
    if (charger !== null) layout.sizes.chargers[s] = addSize(`charger.${id}`, charger);
  });
  problem.stepDowns.forEach((item, i) => {
    layout.sizes.stepDowns[i] = addSize(`exchanger.${item.id}`, item.size);
  });
  problem.chillers.forEach((item, i) => {
    layout.sizes.chillers[i] = addSize(`chiller.${item.id}`, item.size);
  });
  problem.backups.forEach((item, i) => {
    layout.sizes.backups[i] = addSize(`boiler.${item.id}`, item.size);
  });
}

/** Largest power that a size allows: a number to bound with, or the column to bound by. */
function ceiling(size: SizeCase, column: number): { readonly limit: number; readonly column: number } {
  if (column >= 0 && size.existing !== Number.POSITIVE_INFINITY) return { limit: size.existing, column };
  return { limit: size.existing + size.least, column: -1 };
}

function addBlocks(draft: Draft, keepSizeColumns: boolean): void {
  const { problem, builder, layout, hours } = draft;
  const { networks, backups, stores, stepDowns, chillers, cold, water } = problem;
  const infinity = Number.POSITIVE_INFINITY;
  const families = (stem: string, items: readonly { readonly id: string }[]) =>
    items.map((item) => builder.family(`${stem}.${item.id}`));

  const column = {
    solar: families("solar", networks),
    unmet: families("unmet", networks),
    backup: families("backup", backups),
    charge: families("charge", stores),
    discharge: families("discharge", stores),
    content: families("content", stores),
    stepDown: families("stepDown", stepDowns),
    chilled: families("chilled", chillers),
    electricCold: families("electricCold", cold),
    unmetCold: families("unmetCold", cold),
    made: families("made", water),
    tank: families("tank", water),
    unmetWater: families("unmetWater", water),
  };
  const row = {
    balance: families("balance", networks),
    collected: families("collected", networks),
    chargeSource: families("chargeSource", networks),
    backup: families("backupLimit", backups),
    state: families("state", stores),
    capacity: families("capacityLimit", stores),
    charge: families("chargeLimit", stores),
    room: families("chargeRoom", stores),
    stepDown: families("stepDownLimit", stepDowns),
    chilled: families("chillerLimit", chillers),
    cold: families("cold", cold),
    tank: families("tankState", water),
  };
  const met = networks.map((_, k) => isAlwaysMet(problem, k, keepSizeColumns));
  const needsChargeRow = networks.map((_, k) => chargeRowNeeded(problem, k));
  const batchChains = new BatchChains(draft);
  const wasteMayPay = hasNegativePrice(problem);
  const limited = (
    family: number,
    t: number,
    column: number,
    size: SizeCase,
    sizeColumn: number,
    perUnit = 1,
    ofSize = 1,
  ) => {
    const { column: by, limit } = ceiling(size, sizeColumn);
    if (by < 0) return;
    const r = builder.row(family, t, -infinity, limit * ofSize);
    builder.entry(r, column, perUnit);
    builder.entry(r, by, -ofSize);
  };

  for (const cycle of problem.cycles) {
    const end = cycle.start + cycle.length;
    for (let t = cycle.start; t < end; t += 1) {
      const h = hours[t];
      const electricity = problem.electricityPrice_per_kWh[t];

      networks.forEach((network, k) => {
        const balance = builder.row(row.balance[k], t, network.fixed_kW[t], network.fixed_kW[t]);
        layout.rows.balance[k][t] = balance;
        addCollected(draft, k, t, column.solar[k], row.collected[k]);
        if (layout.solar[k][t] >= 0) builder.entry(balance, layout.solar[k][t], 1);
        if (!met[k]) {
          const u = builder.column(column.unmet[k], t, h * problem.unmetPrice_per_kWh, 0, infinity);
          layout.unmet[k][t] = u;
          builder.entry(balance, u, 1);
        }
      });

      backups.forEach((backup, i) => {
        const limit = ceiling(backup.size, layout.sizes.backups[i]);
        const share = availableShare(backup, t);
        const most = share === 0 ? 0 : limit.column >= 0 ? infinity : share * limit.limit;
        if (most === 0) return;
        const b = builder.column(column.backup[i], t, h * backup.heatPrice_per_kWh[t], 0, most);
        layout.backup[i][t] = b;
        builder.entry(layout.rows.balance[backup.network][t], b, 1);
        limited(row.backup[i], t, b, backup.size, layout.sizes.backups[i], 1, share);
      });

      stepDowns.forEach((item, i) => {
        const limit = ceiling(item.size, layout.sizes.stepDowns[i]);
        const most = limit.column >= 0 ? infinity : limit.limit;
        if (most === 0) return;
        const x = builder.column(column.stepDown[i], t, 0, 0, most);
        layout.stepDown[i][t] = x;
        builder.entry(layout.rows.balance[item.from][t], x, -1);
        builder.entry(layout.rows.balance[item.to][t], x, item.efficiency);
        limited(row.stepDown[i], t, x, item.size, layout.sizes.stepDowns[i]);
      });

      const coldRows = cold.map((load, c) => {
        const r = builder.row(row.cold[c], t, load.demand_kW[t], load.demand_kW[t]);
        const cost = (h * electricity) / load.electricCop[t];
        const e = builder.column(column.electricCold[c], t, cost, 0, load.electricLimit_kW);
        layout.electricCold[c][t] = e;
        builder.entry(r, e, 1);
        if (load.electricLimit_kW < load.demand_kW[t]) {
          const u = builder.column(column.unmetCold[c], t, h * problem.unmetPrice_per_kWh, 0, infinity);
          layout.unmetCold[c][t] = u;
          builder.entry(r, u, 1);
        }
        return r;
      });

      chillers.forEach((item, i) => {
        const limit = ceiling(item.size, layout.sizes.chillers[i]);
        const share = item.capacityFactor[t];
        const most = share > 0 ? (limit.column >= 0 ? infinity : limit.limit * share) : 0;
        if (most === 0) return;
        const hasStore = stores.some((s) => "cold" in s.serves && s.serves.cold === item.cold);
        if (!hasStore && cold[item.cold].demand_kW[t] === 0) return;
        const a = builder.column(
          column.chilled[i],
          t,
          h * electricity * item.electricity_kWh_per_kWh,
          0,
          most,
        );
        layout.chilled[i][t] = a;
        builder.entry(coldRows[item.cold], a, 1);
        builder.entry(layout.rows.balance[item.network][t], a, -1 / item.cop[t]);
        limited(row.chilled[i], t, a, item.size, layout.sizes.chillers[i], 1, share);
      });

      stores.forEach((store, s) => {
        const total = ceiling(store.size, layout.sizes.stores[s]);
        if (total.column < 0 && total.limit === 0) return;
        const tieBreak = h * problem.tieBreak_per_kWh;
        const { charger } = store;
        const inOneBlock = store.chargeEfficiency * problem.step_h;
        const power = charger === null ? null : ceiling(charger, layout.sizes.chargers[s]);
        const mostCharge_kW = power === null || power.column >= 0 ? infinity : power.limit;
        const g = builder.column(
          column.charge[s],
          t,
          tieBreak,
          0,
          Math.min(
            store.chargeLimit_kW,
            mostCharge_kW,
            wasteMayPay && total.column < 0 ? total.limit / inOneBlock : infinity,
          ),
        );
        const d = builder.column(column.discharge[s], t, 0, 0, store.dischargeLimit_kW);
        const most = total.column >= 0 ? infinity : total.limit;
        const content = builder.column(column.content[s], t, 0, 0, most);
        layout.charge[s][t] = g;
        layout.discharge[s][t] = d;
        layout.content[s][t] = content;
        limited(row.capacity[s], t, content, store.size, layout.sizes.stores[s]);
        if (charger !== null) limited(row.charge[s], t, g, charger, layout.sizes.chargers[s]);
        // A store that is not there must not be a place to waste heat in.
        if (wasteMayPay) limited(row.room[s], t, g, store.size, layout.sizes.stores[s], inOneBlock);
        const served =
          "network" in store.serves
            ? layout.rows.balance[store.serves.network][t]
            : coldRows[store.serves.cold];
        builder.entry(served, g, -1);
        builder.entry(served, d, store.dischargeEfficiency);
      });

      networks.forEach((_, k) => {
        if (!needsChargeRow[k]) return;
        const s = stores.findIndex((store) => "network" in store.serves && store.serves.network === k);
        if (s < 0 || layout.charge[s][t] < 0) return;
        const r = builder.row(row.chargeSource[k], t, -infinity, 0);
        builder.entry(r, layout.charge[s][t], 1);
        if (layout.solar[k][t] >= 0) builder.entry(r, layout.solar[k][t], -1);
        stepDowns.forEach((item, i) => {
          if (item.to === k && layout.stepDown[i][t] >= 0)
            builder.entry(r, layout.stepDown[i][t], -item.efficiency);
        });
      });

      water.forEach((order, w) => {
        const cost = h * electricity * order.electricity_kWh_per_m3;
        const made = builder.column(column.made[w], t, cost, 0, order.capacity_m3_h);
        layout.made[w][t] = made;
        builder.entry(layout.rows.balance[order.network][t], made, -order.heat_kWh_per_m3[t]);
        layout.tank[w][t] = builder.column(column.tank[w], t, 0, 0, order.tank_m3);
        const price = problem.unmetPrice_per_kWh * order.heat_kWh_per_m3[t];
        layout.unmetWater[w][t] = builder.column(column.unmetWater[w], t, h * price, 0, infinity);
      });

      batchChains.addColumns(t);
    }

    // State rows come after the cycle's columns exist, since the first hour looks back at the last.
    for (let t = cycle.start; t < end; t += 1) {
      const before = t === cycle.start ? end - 1 : t - 1;
      stores.forEach((store, s) => {
        if (layout.content[s][t] < 0) return;
        const r = builder.row(row.state[s], t, 0, 0);
        const keep = store.keep_per_h ** problem.step_h;
        if (before === t) builder.entry(r, layout.content[s][t], 1 - keep);
        else {
          builder.entry(r, layout.content[s][t], 1);
          builder.entry(r, layout.content[s][before], -keep);
        }
        builder.entry(r, layout.charge[s][t], -store.chargeEfficiency * problem.step_h);
        builder.entry(r, layout.discharge[s][t], problem.step_h);
      });
      water.forEach((order, w) => {
        const drawn = order.order_m3_h[t] * problem.step_h;
        const r = builder.row(row.tank[w], t, -drawn, -drawn);
        if (before !== t) {
          builder.entry(r, layout.tank[w][t], 1);
          builder.entry(r, layout.tank[w][before], -1);
        }
        builder.entry(r, layout.made[w][t], -problem.step_h);
        builder.entry(r, layout.unmetWater[w][t], -problem.step_h);
      });
      batchChains.addRows(t);
    }
  }
}

/** Solar heat used ≤ Σ yield · (new + existing aperture); the difference is spill. */
function addCollected(draft: Draft, network: number, t: number, family: number, rowFamily: number): void {
  const { problem, builder, layout } = draft;
  let held_kW = 0;
  let open = false;
  problem.fields.forEach((field, f) => {
    if (field.network !== network || field.yield_kW_per_m2[t] <= 0) return;
    const sized = layout.sizes.fields[f] >= 0;
    held_kW += field.yield_kW_per_m2[t] * (field.existing_m2 + (sized ? 0 : field.least_m2));
    open ||= sized;
  });
  if (!open && held_kW === 0) return;
  const solar = builder.column(family, t, 0, 0, open ? Number.POSITIVE_INFINITY : held_kW);
  layout.solar[network][t] = solar;
  if (!open) return;
  const r = builder.row(rowFamily, t, Number.NEGATIVE_INFINITY, held_kW);
  builder.entry(r, solar, 1);
  problem.fields.forEach((field, f) => {
    if (field.network !== network || layout.sizes.fields[f] < 0) return;
    builder.entry(r, layout.sizes.fields[f], -Math.max(0, field.yield_kW_per_m2[t]));
  });
}
