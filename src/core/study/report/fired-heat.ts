import type { Plan } from "../../dispatch/read-plan.ts";
import { heatAtOneEfficiency } from "../../economics/part-load.ts";
import type { PlantModel } from "../plant-model.ts";

/**
 * Each backup's heat by hour as its fuel counts: by its efficiency at part load and its standby fuel, told as
 * heat at its one efficiency, so that prices and CO2 per kWh of heat hold for it. The plan's own hours where
 * it has neither.
 */
export function firedHeat_kW(
  { study, problem, prices }: PlantModel,
  plan: Plan,
  backup: number,
): Float64Array {
  const { size, available } = problem.backups[backup]!;
  const power_kW = size.existing + plan.sizes.backups_kW[backup]!;
  const own = study.backups[backup]!;
  return heatAtOneEfficiency(
    own,
    plan.backup_kW[backup]!,
    power_kW,
    available,
    prices.backups[backup]!.heat_kWh_per_kWhFuel,
  );
}
