import type { DispatchCase, NewSizes } from "../../dispatch/case.ts";
import { kWhPerCubicMetre } from "../../storage/store-capacity.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Sizes } from "../result.ts";
import { capitalOf } from "./bought-plant.ts";

/** Sizes below this are the solver's rounding, not plant. */
const leastSize = 1e-6;

/** Sizes with what exists included, and what the new plant costs at first. */
export function sizesOf(model: PlantModel, sizes: NewSizes): Sizes {
  const { study, problem, fields } = model;
  const tidy = (value: number) => (value < leastSize ? 0 : value);
  return {
    collectors: fields.map(({ collector, network }, f) => ({
      id: collector.id,
      network: network.id,
      aperture_m2: tidy(sizes.fields_m2[f]) + problem.fields[f].existing_m2,
      existing_m2: problem.fields[f].existing_m2,
    })),
    stores: study.stores.map((store, i) => {
      const capacity_kWh = tidy(sizes.stores_kWh[i]) + store.existing_kWh;
      return {
        id: store.id,
        capacity_kWh,
        volume_m3: capacity_kWh / kWhPerCubicMetre(store),
        existing_kWh: store.existing_kWh,
        charge_kW:
          store.charging === undefined ? null : tidy(sizes.chargers_kW[i]) + store.charging.existing_kW,
      };
    }),
    chillers: study.chillers.map((chiller, i) => ({
      id: chiller.id,
      cold_kW: tidy(sizes.chillers_kW[i]) + chiller.existing_kW,
      existing_kW: chiller.existing_kW,
    })),
    stepDowns: study.stepDowns.map((item, i) => ({
      id: item.id,
      heat_kW: tidy(sizes.stepDowns_kW[i]) + item.existing_kW,
      existing_kW: item.existing_kW,
    })),
    backups: study.backups.map((backup, i) => ({
      id: backup.id,
      heat_kW: tidy(sizes.backups_kW[i]),
      existing_kW: backup.existing_kW ?? null,
    })),
    land_m2: landOf(problem, sizes),
    initialCapital: capitalOf(model, sizes),
  };
}

/** Land under all collectors, existing ones included, m². */
export function landOf(problem: DispatchCase, sizes: NewSizes): number {
  return problem.fields.reduce(
    (all, field, f) =>
      all + (sizes.fields_m2[f] + field.existing_m2) / problem.collectors[field.collector].groundCover,
    0,
  );
}
