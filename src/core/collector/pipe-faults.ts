import type { Problem } from "../problem.ts";
import type { Collector, Network } from "../study/schema/study.ts";
import { canServe, collectorLevel } from "./network-levels.ts";
import { pipeFluidRange_C } from "./pipe-body.ts";

/** What can be wrong with the pipes of a collector field. */
export const pipeProblems = {
  COLLECTOR_PIPE_WALL: "A pipe's walls must leave a bore.",
  COLLECTOR_PIPE_FLUID:
    "A fluid in field pipes is used only at temperatures at which its properties are known.",
} as const;

/** Every fault of a collector's pipes; `path` is the collector's place in the study. */
export function pipeFaults(collector: Collector, networks: readonly Network[], path: string): Problem[] {
  const { pipes } = collector;
  if (pipes === undefined) return [];
  const problems: Problem[] = [];
  const fault = (code: keyof typeof pipeProblems, field: string, message: string) =>
    problems.push({ code, message, place: { path: `${path}/pipes/${field}` } });
  if (!(2 * pipes.wall_mm < pipes.outerDiameter_mm))
    fault(
      "COLLECTOR_PIPE_WALL",
      "wall_mm",
      `Two walls of ${pipes.wall_mm} mm leave no bore in a pipe of ${pipes.outerDiameter_mm} mm; ` +
        `the wall must be thinner than ${pipes.outerDiameter_mm / 2} mm.`,
    );
  const [least_C, most_C] = pipeFluidRange_C(pipes.fluid);
  for (const network of networks) {
    const level = collectorLevel(network);
    if (!collector.networks.includes(network.id) || !canServe(collector, level).possible) continue;
    if (level.collectorIn_C >= least_C && level.collectorOut_C <= most_C) continue;
    fault(
      "COLLECTOR_PIPE_FLUID",
      "fluid",
      `On the network "${network.id}" the pipes are at ${level.collectorIn_C} to ${level.collectorOut_C} °C; ` +
        `${pipes.fluid.replaceAll("-", " ")} is known from ${least_C} to ${most_C} °C.`,
    );
  }
  return problems;
}
