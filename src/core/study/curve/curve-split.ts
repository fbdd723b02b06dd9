import type { DispatchCase, NewSizes } from "../../dispatch/case.ts";
import type { PlantModel } from "../plant-model.ts";
import { matchRows } from "../report/match-rows.ts";

/** Store per aperture of the lines where the optimum has none, kWh/m². */
const usualStore_kWh_m2 = 1;

/** How total aperture and store are shared out along the lines of the curve. */
export interface CurveSplit {
  /** Share of the total aperture, by field. */
  readonly shares: readonly number[];
  /** Share of the heat stores' capacity, by store; 0 for cold stores. */
  readonly stores: readonly number[];
  /** The aperture to which factors refer. */
  readonly aperture_m2: number;
  readonly storePerAperture_kWh_m2: number;
}

/** The optimum's proportions; where it has no collector, all in the best row of the match table. */
export function curveSplit(model: PlantModel, sizes: NewSizes): CurveSplit {
  const aperture_m2 = totalAperture_m2(model, sizes);
  const store_kWh = heatStore_kWh(model, sizes);
  const isHeat = model.problem.stores.map((store) => "network" in store.serves);
  const storeTotals = model.problem.stores.map((store, s) =>
    isHeat[s] ? sizes.stores_kWh[s] + store.size.existing : 0,
  );
  const heatStores = isHeat.filter(Boolean).length;
  const stores =
    store_kWh > 0
      ? storeTotals.map((total) => total / store_kWh)
      : isHeat.map((heat) => (heat ? 1 / heatStores : 0));
  if (aperture_m2 > 0) {
    return {
      shares: model.problem.fields.map((field, f) => (sizes.fields_m2[f] + field.existing_m2) / aperture_m2),
      stores,
      aperture_m2,
      storePerAperture_kWh_m2: store_kWh > 0 ? store_kWh / aperture_m2 : usualStore_kWh_m2,
    };
  }
  const rows = matchRows(model);
  const costOf = (f: number) => {
    const { collector, network } = model.fields[f];
    return (
      rows.find((row) => row.collector === collector.id && row.network === network.id)?.cost_per_kWh ??
      Infinity
    );
  };
  const best = model.fields.reduce((least, _, f) => (costOf(f) < costOf(least) ? f : least), 0);
  const useful = model.fields[best]?.year.levels[model.fields[best].at].useful_kWh_per_m2 ?? 0;
  const demand_kWh = model.problem.networks.reduce(
    (all, network) => all + network.fixed_kW.reduce((sum, heat) => sum + heat, 0),
    0,
  );
  return {
    shares: model.fields.map((_, f) => (f === best ? 1 : 0)),
    stores,
    aperture_m2: useful > 0 ? demand_kWh / useful : 0,
    storePerAperture_kWh_m2: usualStore_kWh_m2,
  };
}

/**
 * Sizes of new plant for a total aperture and store, which count what exists. Sizes other than fields,
 * heat stores and their chargers are the optimum's.
 */
export function sizesOnLine(
  { problem }: PlantModel,
  optimum: NewSizes,
  split: CurveSplit,
  aperture_m2: number,
  storePerAperture_kWh_m2: number,
): NewSizes {
  const store_kWh = aperture_m2 * storePerAperture_kWh_m2;
  const fields_m2 = Float64Array.from(problem.fields, (field, f) =>
    Math.max(0, aperture_m2 * split.shares[f] - field.existing_m2),
  );
  return {
    ...optimum,
    fields_m2,
    stores_kWh: Float64Array.from(problem.stores, (store, s) =>
      "network" in store.serves
        ? Math.max(0, store_kWh * split.stores[s] - store.size.existing)
        : optimum.stores_kWh[s],
    ),
    chargers_kW: Float64Array.from(problem.stores, (store, s) => {
      if (store.charger === null || !("network" in store.serves)) return optimum.chargers_kW[s];
      const optimum_kWh = optimum.stores_kWh[s] + store.size.existing;
      const power_kW =
        optimum_kWh > 0
          ? ((optimum.chargers_kW[s] + store.charger.existing) * store_kWh * split.stores[s]) / optimum_kWh
          : mostCollected_kW(problem, fields_m2, store.serves.network);
      return Math.max(0, power_kW - store.charger.existing);
    }),
  };
}

/** The most that a network's fields give in any block. */
function mostCollected_kW(problem: DispatchCase, fields_m2: Float64Array, network: number): number {
  let most = 0;
  for (let t = 0; t < problem.blocks; t += 1) {
    let heat = 0;
    problem.fields.forEach((field, f) => {
      if (field.network === network) heat += (fields_m2[f] + field.existing_m2) * field.yield_kW_per_m2[t];
    });
    most = Math.max(most, heat);
  }
  return most;
}

export function totalAperture_m2({ problem }: PlantModel, sizes: NewSizes): number {
  return problem.fields.reduce((all, field, f) => all + sizes.fields_m2[f] + field.existing_m2, 0);
}

export function heatStore_kWh({ problem }: PlantModel, sizes: NewSizes): number {
  return problem.stores.reduce(
    (all, store, s) => all + ("network" in store.serves ? sizes.stores_kWh[s] + store.size.existing : 0),
    0,
  );
}
