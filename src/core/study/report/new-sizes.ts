import type { NewSizes } from "../../dispatch/case.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Sizes } from "../result.ts";

/** The new plant in sizes as a result gives them, in the order of the model's lists; the inverse of sizesOf. */
export function newSizesOf({ fields, study }: PlantModel, sizes: Sizes): NewSizes {
  const find = <T extends { readonly id: string }>(items: readonly T[], id: string) =>
    items.find((item) => item.id === id);
  return {
    fields_m2: Float64Array.from(fields, ({ collector, network }) => {
      const size = sizes.collectors.find((item) => item.id === collector.id && item.network === network.id);
      return size === undefined ? 0 : size.aperture_m2 - size.existing_m2;
    }),
    stores_kWh: Float64Array.from(study.stores, ({ id }) => {
      const size = find(sizes.stores, id);
      return size === undefined ? 0 : size.capacity_kWh - size.existing_kWh;
    }),
    chargers_kW: Float64Array.from(study.stores, ({ id, charging }) => {
      const power_kW = find(sizes.stores, id)?.charge_kW ?? null;
      return power_kW === null || charging === undefined ? 0 : power_kW - charging.existing_kW;
    }),
    stepDowns_kW: Float64Array.from(study.stepDowns, ({ id }) => {
      const size = find(sizes.stepDowns, id);
      return size === undefined ? 0 : size.heat_kW - size.existing_kW;
    }),
    chillers_kW: Float64Array.from(study.chillers, ({ id }) => {
      const size = find(sizes.chillers, id);
      return size === undefined ? 0 : size.cold_kW - size.existing_kW;
    }),
    backups_kW: Float64Array.from(study.backups, ({ id }) => find(sizes.backups, id)?.heat_kW ?? 0),
  };
}
