import { towerMakeUp_m3_per_kWh } from "../../cooling/cooling-water.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import { dot, sum } from "../../series.ts";
import type { ColdYear } from "../cold-figures.ts";
import type { PlantModel } from "../plant-model.ts";

/** The year of every cooling load: docs/methods/cooling.md. Plans cover the full year. */
export function coldYears(model: PlantModel, plan: Plan, baseline: Plan): ColdYear[] {
  const { study, problem, prices } = model;
  return problem.cold.map((load, c): ColdYear => {
    const { absorption_kW, electric_kW, unmet_kW, demand_kW } = plan.hours.cold[c];
    let drivingHeat_kWh = 0;
    let towerWater_m3: number | null = null;
    problem.chillers.forEach((chiller, i) => {
      if (chiller.cold !== c) return;
      const heat_kWh = drivingHeat(chiller.cop, plan.chilled_kW[i]);
      drivingHeat_kWh += heat_kWh;
      const water = study.chillers[i].byTemperature?.coolingWater;
      if (water?.from !== "wet-tower") return;
      const made_m3 =
        towerMakeUp_m3_per_kWh(water.cyclesOfConcentration) * (heat_kWh + sum(plan.chilled_kW[i]));
      towerWater_m3 = (towerWater_m3 ?? 0) + made_m3;
    });
    const byAbsorption_kWh = sum(absorption_kW);
    const now_kW = electricityOfCold(model, c, baseline);
    const saved_kW = electricityOfCold(model, c, plan).map((power_kW, t) => now_kW[t] - power_kW);
    const electricityAvoided_kWh = sum(saved_kW);
    const factor = study.electricity.co2_kg_per_kWh;
    return {
      load: load.id,
      name: study.loads.find(({ id }) => id === load.id)?.name ?? load.id,
      delivered_kWh: sum(demand_kW) - sum(unmet_kW),
      byAbsorption_kWh,
      byElectricChiller_kWh: sum(electric_kW),
      drivingHeat_kWh,
      meanCop: drivingHeat_kWh > 0 ? byAbsorption_kWh / drivingHeat_kWh : null,
      rejected_kWh: byAbsorption_kWh + drivingHeat_kWh,
      towerWater_m3,
      electricityAvoided_kWh,
      electricityCostAvoided: dot(saved_kW, prices.electricity.firstYear_per_kWh),
      co2Avoided_kg: factor === undefined ? null : electricityAvoided_kWh * factor,
    };
  });
}

function drivingHeat(cop: Float64Array, chilled_kW: Float64Array): number {
  let heat_kWh = 0;
  for (let t = 0; t < cop.length; t += 1) heat_kWh += chilled_kW[t] / cop[t];
  return heat_kWh;
}

/** Electric power of a cooling load's electric chiller and of its absorption chillers' pumps and fans, kW. */
function electricityOfCold({ problem }: PlantModel, c: number, plan: Plan): Float64Array {
  const { electricCop } = problem.cold[c];
  const power_kW = plan.hours.cold[c].electric_kW.map((cold_kW, t) => cold_kW / electricCop[t]);
  problem.chillers.forEach((chiller, i) => {
    if (chiller.cold !== c) return;
    for (let t = 0; t < power_kW.length; t += 1)
      power_kW[t] += chiller.electricity_kWh_per_kWh * plan.chilled_kW[i][t];
  });
  return power_kW;
}
