import type { DispatchCase, NewSizes } from "./case.ts";
import type { Formulation } from "./formulate.ts";
import { held } from "./held.ts";
import type { Layout } from "./layout.ts";
import { collected } from "./read-plan.ts";

/** Imbalance that is the solver's rounding, as a share of the demand, or kW. */
const dust = 1e-9;

/** Imbalance, as a share of the demand, from which heat counts as unmet. */
const lack = 1e-7;

/** Imbalance that the store takes up first, as a share of the demand: what traces leave. */
const small = 1e-5;

/**
 * Supply minus use on every network, taken up by backup, then spill, then unmet heat, then by the
 * store and what steps down. Small amounts go to a store at work, since closing them would make a
 * boiler seem to run in hours in which it does not. Cool networks come before those that feed them.
 */
export function closeHeat({ problem, layout, program }: Formulation, x: Float64Array): void {
  const parts = problem.networks.map((_, k) => ({
    backups: problem.backups.flatMap((backup, i) => (backup.network === k ? [{ backup, i }] : [])),
    stores: problem.stores.flatMap((store, s) =>
      "network" in store.serves && store.serves.network === k ? [{ store, s }] : [],
    ),
    inflows: problem.stepDowns.flatMap((item, i) => (item.to === k ? [{ item, i }] : [])),
  }));
  const order = coolFirst(problem);
  for (let t = 0; t < problem.blocks; t += 1) {
    const excess = heatExcess(problem, layout, t, x);
    for (const k of order) {
      let surplus = excess[k];
      const demand_kW = Math.max(1, problem.networks[k].fixed_kW[t]);
      if (
        Math.abs(surplus) <= dust * demand_kW &&
        !parts[k].backups.some(({ i }) => held(layout.backup[i], t, x) > 0)
      )
        continue;
      /** Changes a column so that the network has `share` of the change less surplus. */
      const move = (column: number, share = 1) => {
        if (column < 0 || surplus === 0) return 0;
        const value = Math.min(
          Math.max(x[column] - surplus / share, program.colLower[column]),
          program.colUpper[column],
        );
        const change = x[column] - value;
        surplus -= share * change;
        x[column] = value;
        return change;
      };
      const moveStores = (isAtWork: boolean) => {
        for (const { store, s } of parts[k].stores) {
          const charge = layout.charge[s][t];
          const discharge = layout.discharge[s][t];
          if (charge < 0) continue;
          if (x[discharge] > 0 || (!isAtWork && x[charge] === 0)) move(discharge, store.dischargeEfficiency);
          else if (x[charge] > 0) move(charge, -1);
        }
      };
      if (Math.abs(surplus) <= small * demand_kW) moveStores(true);
      for (const { i, backup } of parts[k].backups) {
        const column = layout.backup[i][t];
        // Fuel that one is paid to burn is the last to be saved.
        if (surplus > 0 && backup.heatPrice_per_kWh[t] < 0) continue;
        if (column >= 0 && (surplus > 0 || x[column] > 0)) move(column);
      }
      if (surplus > 0) move(layout.solar[k][t]);
      for (const { i } of parts[k].backups) move(layout.backup[i][t]);
      if (surplus < 0 && held(layout.unmet[k], t, x) > 0) move(layout.unmet[k][t]);
      moveStores(false);
      if (surplus < -lack * demand_kW) move(layout.unmet[k][t]);
      for (const { item, i } of parts[k].inflows)
        excess[item.from] += move(layout.stepDown[i][t], item.efficiency);
      if (surplus < 0) move(layout.solar[k][t]);
    }
  }
}

/** Networks such that each comes before those that step down to it. */
function coolFirst(problem: DispatchCase): number[] {
  const order: number[] = [];
  const visit = (k: number) => {
    if (order.includes(k)) return;
    for (const { from, to } of problem.stepDowns) if (from === k) visit(to);
    order.push(k);
  };
  for (let k = 0; k < problem.networks.length; k += 1) visit(k);
  return order;
}

function heatExcess(problem: DispatchCase, layout: Layout, t: number, x: Float64Array): Float64Array {
  const excess = new Float64Array(problem.networks.length);
  problem.networks.forEach((network, k) => {
    excess[k] = held(layout.solar[k], t, x) + held(layout.unmet[k], t, x) - network.fixed_kW[t];
  });
  problem.backups.forEach((backup, i) => {
    excess[backup.network] += held(layout.backup[i], t, x);
  });
  problem.stores.forEach((store, s) => {
    if (!("network" in store.serves)) return;
    excess[store.serves.network] +=
      store.dischargeEfficiency * held(layout.discharge[s], t, x) - held(layout.charge[s], t, x);
  });
  problem.stepDowns.forEach((item, i) => {
    const heat = held(layout.stepDown[i], t, x);
    excess[item.from] -= heat;
    excess[item.to] += item.efficiency * heat;
  });
  problem.chillers.forEach((chiller, i) => {
    excess[chiller.network] -= held(layout.chilled[i], t, x) / chiller.cop[t];
  });
  problem.water.forEach((order, w) => {
    excess[order.network] -= order.heat_kWh_per_m3[t] * held(layout.made[w], t, x);
  });
  problem.batches.forEach((batch, i) => {
    excess[batch.network] -= held(layout.batch[i], t, x);
  });
  return excess;
}

/** Sun that was left over by a trace while a boiler ran is used instead of its fuel. */
export function useTraces({ problem, layout }: Formulation, x: Float64Array, sizes: NewSizes): void {
  problem.networks.forEach(({ fixed_kW }, k) => {
    const collected_kW = collected(problem, sizes, k);
    problem.backups.forEach((backup, i) => {
      if (backup.network !== k) return;
      for (let t = 0; t < problem.blocks; t += 1) {
        const solar = layout.solar[k][t];
        const fuel = layout.backup[i][t];
        if (solar < 0 || fuel < 0 || !(x[fuel] > 0) || backup.heatPrice_per_kWh[t] < 0) continue;
        const left_kW = collected_kW[t] - x[solar];
        if (!(left_kW > 0) || left_kW > small * Math.max(1, fixed_kW[t])) continue;
        const heat_kW = Math.min(left_kW, x[fuel]);
        x[solar] += heat_kW;
        x[fuel] -= heat_kW;
      }
    });
  });
}
