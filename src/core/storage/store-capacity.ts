import { ModelError } from "../errors.ts";
import type { Problem } from "../problem.ts";
import type { Store } from "../study/schema/study.ts";
import { kJ_per_kWh } from "../units.ts";
import { media, volumetricCapacity_kJ_m3K } from "./media.ts";

type Held = Pick<Store, "medium" | "hot_C" | "cold_C" | "usableShare">;

/**
 * Heat (or cold) that a cubic metre of tank holds between its temperatures: ρ·c·(hot − cold)·usable
 * share, density and heat capacity both at (hot + cold)/2.
 *
 * A tank whose volume is fixed holds less mass when all of it is hot: where no expansion vessel takes
 * the difference, the usable share must. For salt in two tanks it is per m³ of one tank.
 *
 * @throws ModelError OUT_OF_RANGE where a temperature lies outside the medium's range or hot ≤ cold
 */
export function kWhPerCubicMetre(store: Held): number {
  const { medium, hot_C, cold_C, usableShare } = store;
  if (!(hot_C > cold_C))
    throw new ModelError("OUT_OF_RANGE", `a store of ${hot_C} °C hot and ${cold_C} °C cold`);
  for (const end_C of [hot_C, cold_C]) volumetricCapacity_kJ_m3K(medium, end_C);
  const capacity_kJ_m3K = volumetricCapacity_kJ_m3K(medium, (hot_C + cold_C) / 2);
  return (capacity_kJ_m3K * (hot_C - cold_C) * usableShare) / kJ_per_kWh;
}

/** Share of the content that is left after an hour; 24 of them leave 1 − loss. @throws ModelError OUT_OF_RANGE */
export function hourlyKeep(standingLoss_per_day: number): number {
  if (!(standingLoss_per_day >= 0 && standingLoss_per_day <= 1))
    throw new ModelError("OUT_OF_RANGE", `a standing loss of ${standingLoss_per_day} per day`);
  return (1 - standingLoss_per_day) ** (1 / 24);
}

export const storeProblems = {
  STORE_TEMPERATURES: "a store's hot temperature must lie above its cold one",
  STORE_MEDIUM_RANGE: "both temperatures of a store must lie in its medium's range",
} as const;

/** Every fault for which a store's capacity cannot be told, at once. `path` is its place, e.g. `stores/0`. */
export function checkStore(store: Held, path: string): Problem[] {
  const problems: Problem[] = [];
  if (!(store.hot_C > store.cold_C))
    problems.push({
      code: "STORE_TEMPERATURES",
      message: `Hot is ${store.hot_C} °C and cold ${store.cold_C} °C; hot must lie above cold.`,
      place: { path: `${path}/hot_C` },
    });
  const { least_C, most_C } = media[store.medium];
  for (const end of ["hot_C", "cold_C"] as const)
    if (!(store[end] >= least_C && store[end] <= most_C))
      problems.push({
        code: "STORE_MEDIUM_RANGE",
        message: `A store of ${store.medium} cannot be at ${store[end]} °C; ${least_C} to ${most_C} °C is allowed.`,
        place: { path: `${path}/${end}` },
      });
  return problems;
}
