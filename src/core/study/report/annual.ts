import type { Plan } from "../../dispatch/read-plan.ts";
import { sum } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Annual, Costs } from "../result.ts";
import { washingWater_m3 } from "./collector-years.ts";
import { costsOf, total } from "./costs.ts";
import { parasitic_kW } from "./parasitic-power.ts";

/** The year of the plan against today's plant (docs/methods/reported-figures.md). */
export function annualOf(model: PlantModel, plan: Plan, baseline: Plan): Annual {
  return annualAgainst(model, plan, costsOf(model, baseline));
}

/** The same where the figures of today's plant are there already. */
export function annualAgainst(model: PlantModel, plan: Plan, now: Costs): Annual {
  const then = costsOf(model, plan);
  const { hours } = plan;
  const each = <T>(items: readonly T[], value: (item: T) => Float64Array) =>
    items.reduce((all, item) => all + sum(value(item)), 0);
  const solar_kWh = total(plan, "solar_kW");
  const spilled_kWh = total(plan, "spill_kW");
  const finalNow_kWh = now.fuel_kWh + now.electricity_kWh;
  const finalThen_kWh = then.fuel_kWh + then.electricity_kWh;
  const demand_kWh = then.heatDemand_kWh;
  const used_kWh = demand_kWh - then.backup_kWh - total(plan, "unmet_kW");
  const fuelCostBaseline = now.fuelCost + now.electricityCost;
  const fuelCostWithSolar = then.fuelCost + then.electricityCost;
  return {
    demand_kWh,
    backup_kWh: then.backup_kWh,
    unmet_kWh: then.unmet_kWh,
    unmetCold_kWh: each(hours.cold, (load) => load.unmet_kW),
    unmetWater_m3: each(hours.water, (order) => order.unmet_m3_h),
    // Below 0 only where backup steps down at a loss and nothing is solar.
    solarFraction: demand_kWh > 0 ? Math.max(0, used_kWh / demand_kWh) : 0,
    fractionalEnergySaving: finalNow_kWh > 0 ? 1 - finalThen_kWh / finalNow_kWh : 0,
    collected_kWh: solar_kWh + spilled_kWh,
    solarUsed_kWh: used_kWh,
    spilled_kWh,
    storageLoss_kWh: total(plan, "charge_kW") - total(plan, "discharge_kW"),
    stepDownLoss_kWh: total(plan, "stepOut_kW") - total(plan, "stepIn_kW"),
    fuelCostBaseline,
    fuelCostWithSolar,
    fuelCostAvoided: fuelCostBaseline - fuelCostWithSolar,
    co2Baseline_kg: now.co2_kg,
    co2WithSolar_kg: then.co2_kg,
    co2Avoided_kg: now.co2_kg - then.co2_kg,
    co2CountsElectricity: model.study.electricity.co2_kg_per_kWh !== undefined,
    electricity_kWh: then.electricity_kWh,
    parasitic_kWh: sum(parasitic_kW(model, plan)),
    washingWater_m3: washingWater_m3(model, plan),
    water_m3: each(
      hours.water.filter(({ id }) => isMade(model, id)),
      (order) => order.made_m3_h,
    ),
    coldAbsorption_kWh: each(hours.cold, (load) => load.absorption_kW),
    coldElectric_kWh: each(hours.cold, (load) => load.electric_kW),
  };
}

/** Whether an order's water is made by desalination, and not heated only. */
function isMade({ study }: PlantModel, id: string): boolean {
  return study.loads.find((load) => load.id === id)?.kind === "desalination";
}
