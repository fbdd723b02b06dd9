import { saturationTemperature_C } from "../../steam/if97.ts";
import type { Load, Network } from "../../study/schema/study.ts";
import { steamPressure_bar } from "./steam.ts";

/** Heating steam above the top brine; common practice, no source. */
const usualApproach_K = 5;

/**
 * The temperature that a load needs, °C: saturation for steam, and its superheat, what hot water and oil are drawn at, the air for a dryer with air, the heating
 * steam for desalination or its top brine and approach where given, else its network's supply. Null for cooling, which takes no heat itself.
 *
 * @throws ModelError OUT_OF_RANGE for steam outside IAPWS-IF97 region 4
 */
export function loadSupply_C(load: Load, network: Network | null, elevation_m = 0): number | null {
  if (load.kind === "cooling") return null;
  if (load.kind === "steam") {
    const boiling_C = saturationTemperature_C(steamPressure_bar(load, elevation_m));
    return load.superheat_K === undefined ? boiling_C : boiling_C + load.superheat_K;
  }
  if (load.kind === "hot-water") return load.use_C;
  if (load.kind === "thermal-oil") return load.in_C;
  if (load.kind === "drying" && load.heatUse.by === "air") return load.heatUse.air_C;
  if (load.kind === "desalination") {
    const steam_C = load.heatUse.by === "performance-ratio" ? load.heatUse.steam_C : undefined;
    const brine_C =
      load.topBrine_C === undefined
        ? undefined
        : load.topBrine_C + (load.topBrineApproach_K ?? usualApproach_K);
    if (steam_C !== undefined) return Math.max(steam_C, brine_C ?? steam_C);
    return brine_C ?? network?.supply_C ?? null;
  }
  return network?.supply_C ?? null;
}
