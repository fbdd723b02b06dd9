import type { DispatchCase, StoreCase } from "./case.ts";
import type { Formulation } from "./formulate.ts";
import type { Layout } from "./layout.ts";
import { hasNegativePrice } from "./left-out.ts";

/**
 * The solver's columns made exact: values within their bounds, no charging and discharging in the
 * same block, contents recomputed from charge and discharge, backup, electric cold and stretches
 * recomputed from the rest, so that every balance closes to rounding. Sizes are left as they are.
 *
 * @returns a new array of as many columns
 */
export function cleanAnswer(formulation: Formulation, primal: Float64Array): Float64Array {
  const { problem, program, layout } = formulation;
  const x = primal.slice();
  for (let j = 0; j < x.length; j += 1) {
    x[j] = Math.min(Math.max(x[j], program.colLower[j]), program.colUpper[j]);
    if (Math.abs(x[j]) < 1e-9) x[j] = Math.min(Math.max(0, program.colLower[j]), program.colUpper[j]);
  }
  problem.stores.forEach((_, s) => {
    netStore(problem, layout, s, x);
    recomputeContent(problem, layout, s, x);
  });
  // Cold comes first: what chillers make decides what heat they draw.
  closeCold(problem, layout, x);
  closeHeat(formulation, x);
  closeWater(problem, layout, x);
  closeBatches(problem, layout, x);
  closeStretches(formulation, x);
  return x;
}

/**
 * Keeps the change of content and gives what the network gains back to backup, then to spill. Where a
 * price is negative, wasting heat can pay and the program may do it in a store: it is netted only as
 * far as something that costs nothing to turn down takes up the gain.
 */
function netStore(problem: DispatchCase, layout: Layout, s: number, x: Float64Array): void {
  const store = problem.stores[s];
  const wasteMayPay = hasNegativePrice(problem);
  for (let t = 0; t < problem.blocks; t += 1) {
    const g = layout.charge[s][t];
    const d = layout.discharge[s][t];
    if (g < 0 || !(x[g] > 0 && x[d] > 0)) continue;
    const change = store.chargeEfficiency * x[g] - x[d];
    const least = Math.max(0, change) / store.chargeEfficiency;
    const gain_per_kW = 1 - store.chargeEfficiency * store.dischargeEfficiency;
    const room_kW = wasteMayPay ? takenUpFreely(problem, layout, store, t, x) : Number.POSITIVE_INFINITY;
    if ((x[g] - least) * gain_per_kW <= room_kW) {
      x[g] = least;
      x[d] = Math.max(0, -change);
    } else {
      const less_kW = room_kW / gain_per_kW;
      x[g] -= less_kW;
      x[d] -= store.chargeEfficiency * less_kW;
    }
  }
}

/** Power beside a store that could be turned down at no cost, kW: backup and sun, or electric cold. */
function takenUpFreely(
  problem: DispatchCase,
  layout: Layout,
  { serves }: StoreCase,
  t: number,
  x: Float64Array,
): number {
  if ("cold" in serves)
    return problem.electricityPrice_per_kWh[t] < 0 ? 0 : hold(layout.electricCold[serves.cold], t, x);
  let power_kW = hold(layout.solar[serves.network], t, x);
  problem.backups.forEach((backup, i) => {
    if (backup.network === serves.network && backup.heatPrice_per_kWh[t] >= 0)
      power_kW += hold(layout.backup[i], t, x);
  });
  return power_kW;
}

function recomputeContent(problem: DispatchCase, layout: Layout, s: number, x: Float64Array): void {
  const store = problem.stores[s];
  const keep = store.keep_per_h ** problem.step_h;
  const { step_h } = problem;
  for (const { start, length } of problem.cycles) {
    if (layout.content[s][start] < 0) continue;
    const roll = (begin_kWh: number) => {
      let content = begin_kWh;
      for (let t = start; t < start + length; t += 1) {
        const stored = store.chargeEfficiency * x[layout.charge[s][t]] - x[layout.discharge[s][t]];
        content = keep * content + stored * step_h;
        x[layout.content[s][t]] = content;
      }
      return content;
    };
    const last = layout.content[s][start + length - 1];
    const given_kWh = x[last];
    const kept = 1 - keep ** length;
    // The content that closes the cycle exactly; a store without loss closes from any content.
    roll(kept > 1e-9 ? roll(0) / kept : given_kWh);
    for (let t = start; t < start + length; t += 1) {
      const column = layout.content[s][t];
      if (x[column] < 0 && x[column] > -1e-6) x[column] = 0;
    }
  }
}

/** Imbalance that is the solver's rounding, as a share of the demand, or kW. */
const dust = 1e-9;

/** Supply minus use on every network, taken up by backup, then spill, then unmet heat. */
function closeHeat({ problem, layout, program }: Formulation, x: Float64Array): void {
  const backupsOf = problem.networks.map((_, k) =>
    problem.backups.map((backup, i) => ({ backup, i })).filter(({ backup }) => backup.network === k),
  );
  for (let t = 0; t < problem.blocks; t += 1) {
    const excess = heatExcess(problem, layout, t, x);
    for (let k = 0; k < problem.networks.length; k += 1) {
      let surplus = excess[k];
      // Closing dust would make a boiler seem to run in hours in which it does not.
      if (Math.abs(surplus) <= dust * Math.max(1, problem.networks[k].fixed_kW[t])) continue;
      const move = (column: number) => {
        if (column < 0 || surplus === 0) return;
        const value = Math.min(
          Math.max(x[column] - surplus, program.colLower[column]),
          program.colUpper[column],
        );
        surplus -= x[column] - value;
        x[column] = value;
      };
      for (const { i, backup } of backupsOf[k]) {
        const column = layout.backup[i][t];
        // Fuel that one is paid to burn is the last to be saved.
        if (surplus > 0 && backup.heatPrice_per_kWh[t] < 0) continue;
        if (column >= 0 && (surplus > 0 || x[column] > 0)) move(column);
      }
      if (surplus > 0) move(layout.solar[k][t]);
      for (const { i } of backupsOf[k]) move(layout.backup[i][t]);
      if (surplus < 0) move(layout.unmet[k][t]);
      if (surplus < 0) move(layout.solar[k][t]);
    }
  }
}

const hold = (columns: Int32Array, t: number, x: Float64Array) => (columns[t] < 0 ? 0 : x[columns[t]]);

function heatExcess(problem: DispatchCase, layout: Layout, t: number, x: Float64Array): Float64Array {
  const excess = new Float64Array(problem.networks.length);
  problem.networks.forEach((network, k) => {
    excess[k] = hold(layout.solar[k], t, x) + hold(layout.unmet[k], t, x) - network.fixed_kW[t];
  });
  problem.backups.forEach((backup, i) => {
    excess[backup.network] += hold(layout.backup[i], t, x);
  });
  problem.stores.forEach((store, s) => {
    if (!("network" in store.serves)) return;
    excess[store.serves.network] +=
      store.dischargeEfficiency * hold(layout.discharge[s], t, x) - hold(layout.charge[s], t, x);
  });
  problem.stepDowns.forEach((item, i) => {
    const heat = hold(layout.stepDown[i], t, x);
    excess[item.from] -= heat;
    excess[item.to] += item.efficiency * heat;
  });
  problem.chillers.forEach((chiller, i) => {
    excess[chiller.network] -= hold(layout.chilled[i], t, x) / chiller.cop;
  });
  problem.water.forEach((order, w) => {
    excess[order.network] -= order.heat_kWh_per_m3 * hold(layout.made[w], t, x);
  });
  problem.batches.forEach((batch, i) => {
    excess[batch.network] -= hold(layout.batch[i], t, x);
  });
  return excess;
}

function closeCold(problem: DispatchCase, layout: Layout, x: Float64Array): void {
  problem.cold.forEach((load, c) => {
    for (let t = 0; t < problem.blocks; t += 1) {
      let wanted = load.demand_kW[t];
      problem.chillers.forEach((chiller, i) => {
        if (chiller.cold === c) wanted -= hold(layout.chilled[i], t, x);
      });
      problem.stores.forEach((store, s) => {
        if (!("cold" in store.serves) || store.serves.cold !== c) return;
        wanted += hold(layout.charge[s], t, x) - store.dischargeEfficiency * hold(layout.discharge[s], t, x);
      });
      const electric = Math.min(Math.max(wanted, 0), load.electricLimit_kW);
      x[layout.electricCold[c][t]] = electric;
      if (layout.unmetCold[c][t] >= 0) x[layout.unmetCold[c][t]] = Math.max(0, wanted - electric);
      if (wanted < 0) makeLess(problem, layout, c, t, x, -wanted);
    }
  });
}

/** Takes cold that nobody draws, once charging is netted against discharging, from what chillers make. */
function makeLess(
  problem: DispatchCase,
  layout: Layout,
  cold: number,
  t: number,
  x: Float64Array,
  surplus_kW: number,
): void {
  let left_kW = surplus_kW;
  problem.chillers.forEach((chiller, i) => {
    const column = layout.chilled[i][t];
    if (chiller.cold !== cold || column < 0) return;
    const less_kW = Math.min(left_kW, x[column]);
    x[column] -= less_kW;
    left_kW -= less_kW;
  });
}

function closeWater(problem: DispatchCase, layout: Layout, x: Float64Array): void {
  problem.water.forEach((order, w) => {
    for (const { start, length } of problem.cycles) {
      let tank_m3 = x[layout.tank[w][start + length - 1]];
      for (let t = start; t < start + length; t += 1) {
        const flow = x[layout.made[w][t]] + x[layout.unmetWater[w][t]] - order.order_m3_h[t];
        tank_m3 += flow * problem.step_h;
        if (Math.abs(tank_m3) < 1e-7) tank_m3 = 0;
        x[layout.tank[w][t]] = tank_m3;
      }
    }
  });
}

function closeBatches(problem: DispatchCase, layout: Layout, x: Float64Array): void {
  problem.batches.forEach((batch, i) => {
    batch.windows.forEach((window, n) => {
      let given_kWh = 0;
      window.forEach((block, place) => {
        given_kWh += x[layout.batch[i][block]] * problem.step_h;
        const content = layout.batchContent[i][n][place];
        if (content >= 0) x[content] = given_kWh;
      });
      x[layout.unmetBatch[i][n]] = Math.max(0, batch.heat_kWh - given_kWh);
    });
  });
}

function closeStretches({ program, layout }: Formulation, x: Float64Array): void {
  const stretches = [
    [layout.rows.land, layout.stretch.land],
    [layout.rows.budget, layout.stretch.budget],
    [layout.rows.fraction, layout.stretch.fraction],
  ] as const;
  for (const [, column] of stretches) if (column >= 0) x[column] = 0;
  const activity = new Float64Array(program.rows);
  for (let j = 0; j < program.columns; j += 1) {
    if (x[j] === 0) continue;
    for (let e = program.starts[j]; e < program.starts[j + 1]; e += 1) {
      activity[program.indices[e]] += program.values[e] * x[j];
    }
  }
  for (const [row, column] of stretches) {
    if (column < 0) continue;
    const over = activity[row] - program.rowUpper[row];
    x[column] = over > 1e-9 * Math.max(1, Math.abs(program.rowUpper[row])) ? over : 0;
  }
}
