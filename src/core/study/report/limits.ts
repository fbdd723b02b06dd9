import type { Formulation } from "../../dispatch/formulate.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import type { PlantModel } from "../plant-model.ts";
import type { LimitFigure } from "../result.ts";
import { capitalOf, landOf } from "./sizes.ts";

/** Share of a limit within which it is called binding. */
const closeness = 1e-6;

interface Duals {
  readonly formulation: Formulation;
  readonly rowDual: Float64Array;
  readonly reducedCost: Float64Array | null;
}

/** The year-long limits and the bounds of sizes: how far they are used and what one more unit would save a year. */
export function limitFigures(model: PlantModel, plan: Plan, duals: Duals | null): LimitFigure[] {
  const { study, problem, fields } = model;
  const figures: LimitFigure[] = [];
  const add = (what: string, used: number, limit: number, unit: string, valuePerUnit: number | null) => {
    const binding = used >= limit * (1 - closeness) - 1e-9;
    figures.push({
      what,
      used,
      limit,
      unit,
      binding,
      valuePerUnit: binding ? valuePerUnit : 0,
      sentence: binding ? `${what} limits the design.` : `${what} does not limit the design.`,
    });
  };
  const rowValue = (row: number | undefined) =>
    duals === null || row === undefined || row < 0 ? null : Math.max(0, -duals.rowDual[row]);
  const boundValue = (column: number | undefined) =>
    duals?.reducedCost == null || column === undefined || column < 0
      ? null
      : Math.max(0, -duals.reducedCost[column]);
  const layout = duals?.formulation.layout;

  const { land_m2, budget, leastSolarFraction } = problem.limits;
  if (land_m2 !== null) add("Land", landOf(problem, plan.sizes), land_m2, "m²", rowValue(layout?.rows.land));
  if (budget !== null) {
    add(
      "The budget",
      capitalOf(problem, plan.sizes),
      budget,
      study.money.currency,
      rowValue(layout?.rows.budget),
    );
  }
  if (leastSolarFraction !== null) {
    const { demand, other } = heat(plan);
    const reached = demand > 0 ? 1 - other / demand : 0;
    const value = rowValue(layout?.rows.fraction);
    // The year may reach more than the typical days, and cold that a store loses counts in one figure only.
    const isPriced = value !== null && value > closeness * (problem.unmetPrice_per_kWh / 1000);
    const binding = isPriced || reached <= leastSolarFraction + closeness;
    figures.push({
      what: "The least solar fraction",
      used: reached,
      limit: leastSolarFraction,
      unit: "1",
      binding,
      valuePerUnit: binding ? (value === null ? null : value * demand) : 0,
      sentence: binding
        ? "The least solar fraction asked for makes the plant larger than cost alone would."
        : "The plant goes beyond the least solar fraction asked for.",
    });
  }

  study.collectors.forEach((collector) => {
    if (collector.size.choice !== "bounded" || collector.size.most === undefined) return;
    const own = fields.flatMap((field, f) => (field.collector.id === collector.id ? [f] : []));
    const used = own.reduce((all, f) => all + plan.sizes.fields_m2[f], 0);
    const column = own.length === 1 ? layout?.sizes.fields[own[0]] : undefined;
    add(`The largest aperture of ${collector.name}`, used, collector.size.most, "m²", boundValue(column));
  });
  const bounded = (
    items: readonly {
      readonly name: string;
      readonly size: { readonly choice: string; readonly most?: number };
    }[],
    used: Float64Array,
    columns: Int32Array | undefined,
    unit: string,
  ) => {
    items.forEach(({ name, size }, i) => {
      if (size.choice !== "bounded" || size.most === undefined) return;
      add(`The largest size of ${name}`, used[i], size.most, unit, boundValue(columns?.[i]));
    });
  };
  bounded(study.stores, plan.sizes.stores_kWh, layout?.sizes.stores, "kWh");
  bounded(
    study.stepDowns.map((item) => ({ ...item, name: `step-down ${item.id}` })),
    plan.sizes.stepDowns_kW,
    layout?.sizes.stepDowns,
    "kW",
  );
  bounded(study.chillers, plan.sizes.chillers_kW, layout?.sizes.chillers, "kW cold");
  return figures;
}

function heat(plan: Plan): { demand: number; other: number } {
  let demand = 0;
  let other = 0;
  for (const network of plan.hours.networks) {
    for (let t = 0; t < network.demand_kW.length; t += 1) {
      demand += network.demand_kW[t];
      other += network.backup_kW[t] + network.unmet_kW[t];
    }
  }
  return { demand, other };
}
