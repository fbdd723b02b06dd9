import type { ResolvedLoad } from "../../demand/resolved-load.ts";
import { dot, sum } from "../../series.ts";
import { costsByPlace, linearCosts } from "../linear-costs.ts";
import type { PlantModel } from "../plant-model.ts";
import type { MatchRow } from "../result.ts";
import type { Study } from "../schema/study.ts";

/** Every collector at every network: what a m² gives there, at which cost, for how much of the demand. */
export function matchRows(model: PlantModel): MatchRow[] {
  const demand_kWh = nominalDemand_kWh(model.study, model.loads);
  const all_kWh = sum(demand_kWh);
  const collectorCost = costsByPlace(linearCosts(model.study), "collector");
  return model.matches.map((match) => {
    const { collector, network, year, at } = match;
    const level = year.levels[at];
    const cost =
      collectorCost(model.study.collectors.indexOf(collector)).annualCost_per_unit +
      dot(level.parasitic_kW_per_m2, model.prices.electricity.objective_per_kWh);
    const reached_kWh = reachable(model.study, network.id).reduce((part, k) => part + demand_kWh[k], 0);
    return {
      collector: collector.id,
      network: network.id,
      meanFluid_C: match.level.meanFluid_C,
      possible: match.possible,
      remark: match.remark,
      useful_kWh_per_m2: level.useful_kWh_per_m2,
      cost_per_kWh: match.possible && level.useful_kWh_per_m2 > 0 ? cost / level.useful_kWh_per_m2 : null,
      reachableShare: match.possible && all_kWh > 0 ? reached_kWh / all_kWh : 0,
      beam_kWh_per_m2: year.beamOnAperture_kWh_per_m2,
      runningHours: level.runningHours,
      stowedHours: year.stowedHours,
    };
  });
}

/** The network itself and all that heat may step down to, by index. */
export function reachable(study: Study, from: string): number[] {
  const seen = new Set([from]);
  for (const id of seen) for (const step of study.stepDowns) if (step.from === id) seen.add(step.to);
  return study.networks.flatMap(({ id }, k) => (seen.has(id) ? [k] : []));
}

/** Heat that each network would draw if all cold were made by its absorption chiller, kWh a year. */
export function nominalDemand_kWh(study: Study, loads: readonly ResolvedLoad[]): Float64Array {
  const demand_kWh = new Float64Array(study.networks.length);
  const at = (id: string) => study.networks.findIndex((network) => network.id === id);
  for (const load of loads) {
    if (load.kind === "cold") {
      const chiller = study.chillers.find((item) => item.load === load.id);
      if (chiller !== undefined) demand_kWh[at(chiller.network)] += sum(load.cold_kW) / chiller.cop;
    } else demand_kWh[at(load.network)] += heatOf(load);
  }
  return demand_kWh;
}

/** Heat that a load draws in a year if all of it is met, kWh; water made in the hours in which it is ordered. */
export function heatOf(load: Exclude<ResolvedLoad, { kind: "cold" }>): number {
  if (load.kind === "fixed-heat") return sum(load.heat_kW);
  if (load.kind === "water") return dot(load.order_m3_h, load.heat_kWh_per_m3);
  return load.windows.length * load.heat_kWh_per_batch;
}
