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
  const { problem, layout } = formulation;
  const x = primal.slice();
  keepWithinBounds(formulation, x);
  problem.stores.forEach((_, s) => {
    netStore(problem, layout, s, x);
    closeCycle(problem, layout, s, x);
  });
  // Cold comes first: what chillers make decides what heat they draw.
  closeCold(problem, layout, x);
  closeHeat(formulation, x);
  for (let s = 0; s < problem.stores.length; s += 1) {
    recomputeContent(problem, layout, s, x);
    for (let round = 0; round < mostRounds && trimContent(problem, layout, s, x); round += 1)
      recomputeContent(problem, layout, s, x);
  }
  closeWater(problem, layout, x);
  closeBatches(problem, layout, x);
  closeStretches(formulation, x);
  return x;
}

/** Of the largest demand: flows below it are what a solver leaves of zero. */
const trace = 1e-10;

/** Every column within its bounds; flows of a block that are traces are none. */
function keepWithinBounds({ problem, program }: Formulation, x: Float64Array): void {
  const { colLower, colUpper, structure } = program;
  let peak_kW = 1;
  for (const { fixed_kW } of problem.networks)
    for (const heat_kW of fixed_kW) peak_kW = Math.max(peak_kW, heat_kW);
  const least = trace * peak_kW;
  for (let j = 0; j < x.length; j += 1) {
    const isFlow = structure !== undefined && structure.columnBlock[j] >= 0;
    if (Math.abs(x[j]) < (isFlow ? least : 1e-9)) x[j] = 0;
    x[j] = Math.min(Math.max(x[j], colLower[j]), colUpper[j]);
  }
}

const mostRounds = 3;
/** Share of a capacity or a year-long limit by which an answer may miss it. */
const rounding = 1e-8;

/**
 * Where closing balances filled a store beyond its capacity by a trace, less is charged in that hour
 * and the sun that filled it is spilled; where it fell below nothing, backup serves instead.
 *
 * @returns whether anything was changed
 */
function trimContent(problem: DispatchCase, layout: Layout, s: number, x: Float64Array): boolean {
  const store = problem.stores[s];
  if (!("network" in store.serves)) return false;
  const { network } = store.serves;
  const column = layout.sizes.stores[s];
  const capacity_kWh = store.size.existing + (column < 0 ? store.size.least : x[column]);
  const least_kWh = rounding * Math.max(1, capacity_kWh);
  const backup = problem.backups.findIndex((item) => item.network === network);
  let shift_kWh = 0;
  let isChanged = false;
  for (let t = 0; t < problem.blocks; t += 1) {
    const charge = layout.charge[s][t];
    const discharge = layout.discharge[s][t];
    const solar = layout.solar[network][t];
    if (charge < 0) continue;
    shift_kWh *= store.keep_per_h ** problem.step_h;
    const content_kWh = x[layout.content[s][t]] + shift_kWh;
    if (content_kWh > capacity_kWh + least_kWh && solar >= 0) {
      const over_kW = (content_kWh - capacity_kWh) / (store.chargeEfficiency * problem.step_h);
      const less_kW = Math.min(over_kW, x[charge], x[solar]);
      x[charge] -= less_kW;
      x[solar] -= less_kW;
      shift_kWh -= less_kW * store.chargeEfficiency * problem.step_h;
      isChanged ||= less_kW > 0;
    } else if (content_kWh < -least_kWh && backup >= 0 && layout.backup[backup][t] >= 0) {
      const less_kW = Math.min(-content_kWh / problem.step_h, x[discharge]);
      x[discharge] -= less_kW;
      x[layout.backup[backup][t]] += less_kW * store.dischargeEfficiency;
      shift_kWh += less_kW * problem.step_h;
      isChanged ||= less_kW > 0;
    }
  }
  return isChanged;
}

/**
 * A store without loss must give back in a cycle what it took in; what rounding leaves is spread over
 * its discharge. (One with a loss finds the content from which its cycle closes.)
 */
function closeCycle(problem: DispatchCase, layout: Layout, s: number, x: Float64Array): void {
  const store = problem.stores[s];
  for (const { start, length } of problem.cycles) {
    if (layout.content[s][start] < 0 || 1 - store.keep_per_h ** (problem.step_h * length) > 1e-9) continue;
    let stored = 0;
    let drawn = 0;
    for (let t = start; t < start + length; t += 1) {
      stored += store.chargeEfficiency * x[layout.charge[s][t]];
      drawn += x[layout.discharge[s][t]];
    }
    if (drawn <= 0) continue;
    for (let t = start; t < start + length; t += 1) x[layout.discharge[s][t]] *= stored / drawn;
  }
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

/** Imbalance, as a share of the demand, from which heat counts as unmet. */
const lack = 1e-7;

/** Imbalance that the store takes up first, as a share of the demand: what traces leave. */
const small = 1e-5;

/**
 * Supply minus use on every network, taken up by backup, then spill, then unmet heat, then by the
 * store and what steps down. Small amounts go to a store at work, since closing them would make a
 * boiler seem to run in hours in which it does not. Cool networks come before those that feed them.
 */
function closeHeat({ problem, layout, program }: Formulation, x: Float64Array): void {
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
        !parts[k].backups.some(({ i }) => hold(layout.backup[i], t, x) > 0)
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
      if (surplus < 0 && hold(layout.unmet[k], t, x) > 0) move(layout.unmet[k][t]);
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
    ...layout.yearFractions.map(({ row, stretch }) => [row, stretch] as const),
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
    x[column] = over > rounding * Math.max(1, Math.abs(program.rowUpper[row])) ? over : 0;
  }
}
