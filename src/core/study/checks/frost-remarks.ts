import { canServe, collectorLevel } from "../../collector/network-levels.ts";
import type { Problem } from "../../problem.ts";
import type { WeatherYear } from "../../weather.ts";
import type { Study } from "../schema/study.ts";

/** What a weather with frost makes a careful reader ask. */
export const frostRemarkCodes = {
  REMARK_FROST: "water in collectors can freeze, and the study has nothing against it",
} as const;

/** Collectors on water in a weather with frost, without anything that keeps them from freezing. */
export function frostRemarks(study: Study, { ambient_C }: Pick<WeatherYear, "ambient_C">): Problem[] {
  let hours = 0;
  let coldest_C = 0;
  for (const air_C of ambient_C) {
    if (!(air_C < 0)) continue;
    hours += 1;
    coldest_C = Math.min(coldest_C, air_C);
  }
  if (hours === 0) return [];
  return study.collectors.flatMap((collector, i) => {
    const onWater = study.networks.some(
      (network) =>
        network.carrier === "water" &&
        collector.networks.includes(network.id) &&
        canServe(collector, collectorLevel(network)).possible,
    );
    const { fluid = "water" } = collector.pipes ?? {};
    if (!onWater || fluid !== "water" || collector.frost !== undefined) return [];
    return [
      {
        code: "REMARK_FROST",
        place: { path: `collectors/${i}` },
        message: `The weather has ${hours} hours below 0 °C, down to ${coldest_C.toFixed(1).replace("-", "−")} °C, and nothing keeps "${collector.id}" on water from freezing; give its frost protection, or use an antifreeze behind an exchanger.`,
      },
    ];
  });
}
