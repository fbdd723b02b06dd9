import type { Plan } from "../../dispatch/read-plan.ts";
import { dot, sum } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Costs } from "../result.ts";
import { firedHeat_kW } from "./fired-heat.ts";

/** Fuel, electricity and CO2 of a plan over the full year, at first-year prices, carbon price left out. */
export function costsOf(model: PlantModel, plan: Plan): Costs {
  const { prices } = model;
  let fuel_kWh = 0;
  let fuelCost = 0;
  let co2_kg = 0;
  prices.backups.forEach((backup, i) => {
    const heat_kW = firedHeat_kW(model, plan, i);
    fuel_kWh += dot(heat_kW, backup.fuel_kWh_per_kWhHeat);
    fuelCost += dot(heat_kW, backup.firstYear_per_kWh);
    co2_kg += dot(heat_kW, backup.co2_kg_per_kWhHeat);
  });
  const electricity_kW = electricityOf(model, plan);
  const electricity_kWh = sum(electricity_kW);
  return {
    heatDemand_kWh: total(plan, "demand_kW"),
    backup_kWh: total(plan, "backup_kW"),
    fuel_kWh,
    electricity_kWh,
    fuelCost,
    electricityCost: dot(electricity_kW, prices.electricity.firstYear_per_kWh),
    co2_kg: co2_kg + electricity_kWh * prices.electricity.co2_kg_per_kWh,
    unmet_kWh:
      total(plan, "unmet_kW") + plan.hours.batches.reduce((all, batch) => all + sum(batch.unmet_kWh), 0),
  };
}

/** All electricity of a plan, kW by hour. */
export function electricityOf(model: PlantModel, plan: Plan): Float64Array {
  return plan.hours.electricity_kW.map((power_kW, t) => power_kW + model.fixedElectricity_kW[t]);
}

type NetworkSeries = Exclude<keyof Plan["hours"]["networks"][number], "id">;

/** A quantity over all networks and hours, kWh. */
export function total(plan: Plan, series: NetworkSeries): number {
  return plan.hours.networks.reduce((all, network) => all + sum(network[series]), 0);
}
