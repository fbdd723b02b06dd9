import type { Plan } from "../../dispatch/read-plan.ts";
import { largest, sum } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { NetworkYear } from "../result.ts";

/**
 * The year of each network. The solar fraction goes from hot to cool: heat stepped down is as solar
 * as the network it comes from, σ = (solar + Σ σ_hot·in) / (solar + backup + in).
 */
export function networkYears(model: PlantModel, plan: Plan): NetworkYear[] {
  const { study, problem } = model;
  const years = study.networks.map((network, k): NetworkYear => {
    const hours = plan.hours.networks[k];
    const charge_kWh = sum(hours.charge_kW);
    const discharge_kWh = sum(hours.discharge_kW);
    return {
      id: network.id,
      name: network.name,
      supply_C: network.supply_C,
      demand_kWh: sum(hours.demand_kW),
      solar_kWh: sum(hours.solar_kW),
      backup_kWh: sum(hours.backup_kW),
      stepIn_kWh: sum(hours.stepIn_kW),
      stepOut_kWh: sum(hours.stepOut_kW),
      charge_kWh,
      discharge_kWh,
      storageLoss_kWh: charge_kWh - discharge_kWh,
      spill_kWh: sum(hours.spill_kW),
      unmet_kWh: sum(hours.unmet_kW),
      peak_kW: largest(hours.demand_kW),
      peakBackup_kW: largest(hours.backup_kW),
      solarFraction: 0,
    };
  });

  const fraction = new Float64Array(years.length);
  const hotFirst = years.map((_, k) => k).sort((a, b) => years[b].supply_C - years[a].supply_C);
  for (const k of hotFirst) {
    let solar_kWh = years[k].solar_kWh;
    problem.stepDowns.forEach((item, i) => {
      if (item.to === k) solar_kWh += fraction[item.from] * item.efficiency * plan.stepDown_kWh[i];
    });
    const supply_kWh = years[k].solar_kWh + years[k].backup_kWh + years[k].unmet_kWh + years[k].stepIn_kWh;
    fraction[k] = supply_kWh > 0 ? solar_kWh / supply_kWh : 0;
  }
  return years.map((year, k) => ({ ...year, solarFraction: fraction[k] }));
}
