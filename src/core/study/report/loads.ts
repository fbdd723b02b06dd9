import { loadSupply_C } from "../../demand/loads/load-supply.ts";
import { largest, sum } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { LoadYear } from "../result.ts";
import { heatOf } from "./match-rows.ts";

/** What each load draws in a year: heat, or cold for cooling. */
export function loadYears({ study, loads }: PlantModel): LoadYear[] {
  return loads.map((load): LoadYear => {
    const given = study.loads.find(({ id }) => id === load.id);
    const network =
      load.kind === "cold" ? null : (study.networks.find(({ id }) => id === load.network) ?? null);
    const peak_kW =
      load.kind === "fixed-heat"
        ? largest(load.heat_kW)
        : load.kind === "water"
          ? load.capacity_m3_h * load.heat_kWh_per_m3
          : load.kind === "batch"
            ? load.power_kW
            : largest(load.cold_kW);
    return {
      id: load.id,
      name: given?.name ?? load.id,
      kind: given?.kind ?? load.kind,
      network: network?.id ?? null,
      supply_C: given === undefined ? null : loadSupply_C(given, network, study.site.elevation_m),
      energy_kWh: load.kind === "cold" ? sum(load.cold_kW) : heatOf(load),
      peak_kW,
      basis: load.basis,
    };
  });
}
