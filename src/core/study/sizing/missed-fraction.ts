import type { DispatchCase } from "../../dispatch/case.ts";
import type { Plan } from "../../dispatch/read-plan.ts";

/** Remark on a year that misses the solar fraction which its typical days keep. */
export function missedFraction(asked: number | null, reached: number): string[] {
  if (asked === null || !(reached < asked - 1e-6)) return [];
  return [
    `At the sizes of the typical days the full year reaches a solar fraction of ${reached.toFixed(3)}, ` +
      `less than the ${asked} asked for; the full-year method keeps to it.`,
  ];
}

/** Share of the heat demand that neither backup nor anything unmet stands for; 0 without demand. */
export function fractionOf(plan: Plan, problem: DispatchCase): number {
  let demand = 0;
  let other = 0;
  for (const network of plan.hours.networks) {
    for (let t = 0; t < problem.blocks; t += 1) {
      demand += network.demand_kW[t] * problem.weight[t];
      other += (network.backup_kW[t] + network.unmet_kW[t]) * problem.weight[t];
    }
  }
  return demand > 0 ? 1 - other / demand : 0;
}
