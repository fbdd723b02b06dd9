import type { DispatchCase } from "./case.ts";
import { closeCycle, netStore, recomputeContent, rounding, trimContent } from "./clean-stores.ts";
import { closeHeat, useTraces } from "./close-heat.ts";
import type { Formulation } from "./formulate.ts";
import { held } from "./held.ts";
import type { Layout } from "./layout.ts";
import { readSizes } from "./read-plan.ts";

/** Times that contents are trimmed and found anew. */
const mostRounds = 3;

/**
 * The solver's columns made exact: values within their bounds, no charging and discharging in the
 * same block, contents recomputed from charge and discharge, backup, electric cold and stretches
 * recomputed from the rest, so that every balance closes to rounding. Sizes are left as they are but
 * for traces.
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
  useTraces(formulation, x, readSizes(formulation, x));
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

/** m², kWh or kW: nobody builds less. */
const leastSize = 1e-5;

/** Every column within its bounds; flows of a block and sizes that are traces are none. */
function keepWithinBounds({ problem, program }: Formulation, x: Float64Array): void {
  const { colLower, colUpper, structure } = program;
  let peak_kW = 1;
  for (const { fixed_kW } of problem.networks)
    for (const heat_kW of fixed_kW) peak_kW = Math.max(peak_kW, heat_kW);
  const least = trace * peak_kW;
  for (let j = 0; j < x.length; j += 1) {
    const isFlow = structure !== undefined && structure.columnBlock[j] >= 0;
    if (Math.abs(x[j]) < (isFlow ? least : leastSize)) x[j] = 0;
    x[j] = Math.min(Math.max(x[j], colLower[j]), colUpper[j]);
  }
}

function closeCold(problem: DispatchCase, layout: Layout, x: Float64Array): void {
  problem.cold.forEach((load, c) => {
    for (let t = 0; t < problem.blocks; t += 1) {
      let wanted = load.demand_kW[t];
      problem.chillers.forEach((chiller, i) => {
        if (chiller.cold === c) wanted -= held(layout.chilled[i], t, x);
      });
      problem.stores.forEach((store, s) => {
        if (!("cold" in store.serves) || store.serves.cold !== c) return;
        wanted += held(layout.charge[s], t, x) - store.dischargeEfficiency * held(layout.discharge[s], t, x);
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
