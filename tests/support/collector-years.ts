import type { Result } from "../../src/core/study/result.ts";
import { sampleLosses } from "./sample-charts.ts";

/** An answer with a plain year of losses, the same for every collector on every heat network it may serve. */
export function withCollectorYears(result: Result): Result {
  const { chain } = sampleLosses()[0]!;
  const collectors = result.match.map(({ collector, network, runningHours, stowedHours }) => ({
    id: collector,
    network,
    ...chain,
    parasitic_kWh_per_m2: 9.5,
    stowedHours,
    stormLoss_kWh_per_m2: chain.losses.storm,
    runningHours,
    stagnation_C: 412,
    washingWater_m3: 18,
  }));
  return { ...result, collectors } as Result;
}
