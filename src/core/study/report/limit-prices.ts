import { lowestCop } from "../../dispatch/case.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import type { PlantModel } from "../plant-model.ts";
import { capitalOnLine } from "./capital-on-line.ts";
import type { UnsaidEntry } from "./prices.ts";
import { landOf } from "./sizes.ts";
import { type Duals, savingOf } from "./unit-worth.ts";

/** What one more m² of land, unit of money and one percentage point of solar fraction less would save a year. */
export function limitPrices(model: PlantModel, plan: Plan, duals: Duals): UnsaidEntry[] {
  const { formulation, sizes } = duals;
  const { problem, layout } = formulation;
  const { land_m2, budget, leastSolarFraction } = problem.limits;
  const entry = (
    kind: "land" | "budget" | "solar-fraction",
    what: string,
    size: number,
    unit: string,
    value: number | null,
  ): UnsaidEntry => ({
    kind,
    what,
    item: kind,
    network: null,
    size,
    existing: 0,
    unit,
    state: value !== null && value > least[kind] ? "at its limit" : "within its limit",
    annualCost_per_unit: null,
    value_per_unit: value !== null && value > least[kind] ? value : value === null ? null : 0,
    rationed: false,
    entry: null,
  });
  return [
    ...(land_m2 === null
      ? []
      : [entry("land", "Land", landOf(problem, sizes), "m²", savingOf(duals, layout.rows.land))]),
    ...(budget === null
      ? []
      : [
          entry(
            "budget",
            "The budget",
            capitalOnLine(problem, sizes),
            model.study.money.currency,
            savingOf(duals, layout.rows.budget),
          ),
        ]),
    ...(leastSolarFraction === null ? [] : [fractionEntry(entry, plan, duals)]),
  ];
}

/** Savings a year per unit below these are the solver's rounding. */
const least = { land: 1e-6, budget: 1e-8, "solar-fraction": 1e-4 } as const;

function fractionEntry(
  entry: (
    kind: "solar-fraction",
    what: string,
    size: number,
    unit: string,
    value: number | null,
  ) => UnsaidEntry,
  plan: Plan,
  duals: Duals,
): UnsaidEntry {
  const value = fractionSaving(plan, duals);
  return entry(
    "solar-fraction",
    "The least solar fraction",
    reachedFraction(plan),
    "percentage point",
    value === null ? null : value / 100,
  );
}

/** 1 − (backup + unmet) / heat drawn, over the plan's year. */
export function reachedFraction(plan: Plan): number {
  let other = 0;
  let demand = 0;
  for (const network of plan.hours.networks) {
    for (let t = 0; t < network.demand_kW.length; t += 1) {
      demand += network.demand_kW[t];
      other += network.backup_kW[t] + network.unmet_kW[t];
    }
  }
  return demand > 0 ? 1 - other / demand : 0;
}

/**
 * Annual saving for each unit by which the least solar fraction is lowered: the dual of its row times the
 * heat that the row counts, which is all heat drawn less what cold stores waste of it.
 *
 * @param plan of the full year, or of the program's own blocks
 */
export function fractionSaving(plan: Plan, duals: Duals): number | null {
  const { problem, layout } = duals.formulation;
  const saving = savingOf(duals, layout.rows.fraction);
  if (saving === null) return null;
  const ownBlocks = plan.hours.electricity_kW.length === problem.blocks;
  const hoursOf = (t: number) => (ownBlocks ? problem.weight[t] * problem.step_h : 1);
  let counted_kWh = 0;
  for (const { demand_kW } of plan.hours.networks) {
    for (let t = 0; t < demand_kW.length; t += 1) counted_kWh += demand_kW[t] * hoursOf(t);
  }
  problem.cold.forEach((_, c) => {
    const cop = lowestCop(problem, c);
    if (cop === null) return;
    const { charge_kW, discharge_kW } = plan.hours.cold[c];
    for (let t = 0; t < charge_kW.length; t += 1)
      counted_kWh -= ((charge_kW[t] - discharge_kW[t]) / cop) * hoursOf(t);
  });
  return saving * counted_kWh;
}
