import { monthLength_days } from "../../calendar.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import type { MonthFigures } from "../result.ts";

/** Twelve months over all networks: demand = direct + from store + backup (+ unmet). */
export function monthFigures(plan: Plan): MonthFigures[] {
  let from = 0;
  return Array.from({ length: 12 }, (_, i) => {
    const to = from + monthLength_days(i + 1) * 24;
    const month = { demand_kWh: 0, fromStore_kWh: 0, backup_kWh: 0, spill_kWh: 0, unmet_kWh: 0 };
    for (const network of plan.hours.networks) {
      for (let t = from; t < to; t += 1) {
        month.demand_kWh += network.demand_kW[t];
        month.fromStore_kWh += network.discharge_kW[t];
        month.backup_kWh += network.backup_kW[t];
        month.spill_kWh += network.spill_kW[t];
        month.unmet_kWh += network.unmet_kW[t];
      }
    }
    from = to;
    const { unmet_kWh, ...figures } = month;
    const direct_kWh = month.demand_kWh - month.fromStore_kWh - month.backup_kWh - unmet_kWh;
    return { month: i + 1, ...figures, direct_kWh: Math.max(0, direct_kWh) };
  });
}
