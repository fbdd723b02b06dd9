import type { DispatchCase } from "../../dispatch/case.ts";
import type { Formulation } from "../../dispatch/formulate.ts";
import type { Layout } from "../../dispatch/layout.ts";
import { type Plan, readPlan } from "../../dispatch/read-plan.ts";

/**
 * One year out of the answer to several that were joined: the common sizes, and that year's own hours and
 * sums. Marginal costs are NaN.
 *
 * @param years the problems that were joined, in order
 * @param primal cleaned columns of the joined program
 */
export function planOfYear(
  { problem, program, layout }: Formulation,
  years: readonly DispatchCase[],
  index: number,
  primal: Float64Array,
): Plan {
  const own = { problem: years[index], program, layout: layoutOfYear(layout, years, index) };
  const plan = readPlan(own, primal, null);
  // The year's row of the joined program is weighted with its probability.
  const start = years.slice(0, index).reduce((sum, { blocks }) => sum + blocks, 0);
  const share = problem.weight[start] / years[index].weight[0];
  const fraction_kWh = plan.stretch.fraction_kWh / share;
  return { ...plan, stretch: { ...plan.stretch, fraction_kWh } };
}

function layoutOfYear(layout: Layout, years: readonly DispatchCase[], index: number): Layout {
  const year = years[index];
  const before = years.slice(0, index);
  const from = before.reduce((sum, { blocks }) => sum + blocks, 0);
  const cut = (columns: readonly Int32Array[]) =>
    columns.map((series) => series.subarray(from, from + year.blocks));
  const windowsOf = (batch: number) => {
    const first = before.reduce((sum, { batches }) => sum + batches[batch].windows.length, 0);
    return [first, first + year.batches[batch].windows.length] as const;
  };
  return {
    sizes: layout.sizes,
    solar: cut(layout.solar),
    unmet: cut(layout.unmet),
    backup: cut(layout.backup),
    charge: cut(layout.charge),
    discharge: cut(layout.discharge),
    content: cut(layout.content),
    stepDown: cut(layout.stepDown),
    chilled: cut(layout.chilled),
    electricCold: cut(layout.electricCold),
    unmetCold: cut(layout.unmetCold),
    made: cut(layout.made),
    tank: cut(layout.tank),
    unmetWater: cut(layout.unmetWater),
    batch: cut(layout.batch),
    batchContent: layout.batchContent.map((windows, i) => windows.slice(...windowsOf(i))),
    unmetBatch: layout.unmetBatch.map((columns, i) => columns.subarray(...windowsOf(i))),
    stretch: { ...layout.stretch, fraction: layout.yearFractions[index]?.stretch ?? -1 },
    yearFractions: [],
    rows: {
      ...layout.rows,
      balance: cut(layout.rows.balance),
      fraction: layout.yearFractions[index]?.row ?? -1,
    },
  };
}
