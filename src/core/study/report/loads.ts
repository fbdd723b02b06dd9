import { loadSupply_C } from "../../demand/loads/load-supply.ts";
import type { ResolvedLoad } from "../../demand/resolved-load.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import { largest, sum } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { LoadYear } from "../result.ts";
import { heatOf } from "./match-rows.ts";

/** What each load draws in a year: heat, or cold for cooling. */
export function loadYears({ study, loads }: PlantModel, { hours }: Plan): LoadYear[] {
  return loads.map((load): LoadYear => {
    const given = study.loads.find(({ id }) => id === load.id);
    const network =
      load.kind === "cold" ? null : (study.networks.find(({ id }) => id === load.network) ?? null);
    const peak_kW =
      load.kind === "fixed-heat"
        ? largest(load.heat_kW)
        : load.kind === "water"
          ? load.capacity_m3_h * largest(load.heat_kWh_per_m3)
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
      ...productsOf(load, hours),
    };
  });
}

/** What was not delivered is not made. */
function productsOf(load: ResolvedLoad, hours: Plan["hours"]): Pick<LoadYear, "products"> {
  if (!("products" in load) || load.products === undefined) return {};
  if (load.kind !== "water") return { products: load.products };
  const ordered_m3 = sum(load.order_m3_h);
  const order = hours.water.find(({ id }) => id === load.id);
  const lacks_m3 = order === undefined ? 0 : sum(order.unmet_m3_h);
  const share = ordered_m3 > 0 ? Math.max(0, 1 - lacks_m3 / ordered_m3) : 0;
  return { products: load.products.map((product) => ({ ...product, amount: share * product.amount })) };
}
