import type { Problem } from "../problem.ts";
import type { Collector, Network } from "../study/schema/study.ts";
import { canServe, collectorLevel } from "./network-levels.ts";

/** What can be wrong with the frost protection of a collector field. */
export const frostProblems = {
  COLLECTOR_FROST_REFILL: "Only a loop that is drained for frost has to be filled again.",
  COLLECTOR_FROST_ABOVE: "A loop is kept from freezing at a temperature not above that of its running inlet.",
} as const;

/** Every fault of a collector's frost protection; `path` is the collector's place in the study. */
export function frostFaults(collector: Collector, networks: readonly Network[], path: string): Problem[] {
  const { frost } = collector;
  if (frost === undefined) return [];
  const problems: Problem[] = [];
  const fault = (code: keyof typeof frostProblems, field: string, message: string) =>
    problems.push({ code, message, place: { path: `${path}/frost/${field}` } });
  if (frost.by !== "drain" && frost.refill_h !== undefined)
    fault(
      "COLLECTOR_FROST_REFILL",
      "refill_h",
      `${frost.refill_h} h to fill the loop are given, but it is heated by electricity; leave them out, or choose "drain".`,
    );
  for (const network of networks) {
    const level = collectorLevel(network);
    if (!collector.networks.includes(network.id) || !canServe(collector, level).possible) continue;
    if (frost.keepAbove_C <= level.collectorIn_C) continue;
    fault(
      "COLLECTOR_FROST_ABOVE",
      "keepAbove_C",
      `The loop is never to be colder than ${frost.keepAbove_C} °C and its inlet on the network "${network.id}" is at ` +
        `${level.collectorIn_C} °C; at most that is allowed.`,
    );
  }
  return problems;
}
