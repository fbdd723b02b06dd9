import type { Plan } from "../../dispatch/read-plan.ts";
import type { PlantModel } from "../plant-model.ts";
import type { LimitFigure } from "../result.ts";
import { capitalOf } from "./bought-plant.ts";
import { fractionSaving, reachedFraction } from "./limit-prices.ts";
import { landOf } from "./sizes.ts";
import { type Duals, reducedCostOf, savingOf, sharedRowOf } from "./unit-worth.ts";

/** Share of a limit within which it is called binding. */
const closeness = 1e-6;

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
    duals === null || row === undefined ? null : savingOf(duals, row);
  const boundValue = (column: number | undefined) => {
    const reduced = duals === null || column === undefined ? null : reducedCostOf(duals, column);
    return reduced === null ? null : Math.max(0, -reduced);
  };
  const layout = duals?.formulation.layout;

  const { land_m2, leastSolarFraction } = problem.limits;
  // Not the program's, which is less by what a line of costs cannot see.
  const budget = study.limits.budget ?? null;
  if (land_m2 !== null) add("Land", landOf(problem, plan.sizes), land_m2, "m²", rowValue(layout?.rows.land));
  if (budget !== null) {
    add(
      "The budget",
      capitalOf(model, plan.sizes),
      budget,
      study.money.currency,
      rowValue(layout?.rows.budget),
    );
  }
  if (leastSolarFraction !== null) {
    const reached = reachedFraction(plan);
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
      valuePerUnit: binding ? (duals === null ? null : fractionSaving(plan, duals)) : 0,
      sentence: binding
        ? "The least solar fraction asked for makes the plant larger than cost alone would."
        : "The plant goes beyond the least solar fraction asked for.",
    });
  }

  study.collectors.forEach((collector) => {
    if (collector.size.choice !== "bounded" || collector.size.most === undefined) return;
    const own = fields.flatMap((field, f) => (field.collector.id === collector.id ? [f] : []));
    const used = own.reduce((all, f) => all + plan.sizes.fields_m2[f], 0);
    const [first] = own;
    const value =
      duals === null || first === undefined
        ? null
        : own.length === 1
          ? boundValue(duals.formulation.layout.sizes.fields[first])
          : rowValue(sharedRowOf(duals.formulation, first));
    add(`The largest aperture of ${collector.name}`, used, collector.size.most, "m²", value);
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
  study.stores.forEach(({ name, charging }, i) => {
    if (charging?.size.choice !== "bounded" || charging.size.most === undefined) return;
    add(
      `The largest charging power of ${name}`,
      plan.sizes.chargers_kW[i],
      charging.size.most,
      "kW",
      boundValue(layout?.sizes.chargers[i]),
    );
  });
  bounded(
    study.stepDowns.map((item) => ({ ...item, name: `step-down ${item.id}` })),
    plan.sizes.stepDowns_kW,
    layout?.sizes.stepDowns,
    "kW",
  );
  bounded(study.chillers, plan.sizes.chillers_kW, layout?.sizes.chillers, "kW cold");
  return figures;
}
