import type { Problem } from "../problem.ts";
import type { Collector } from "../study/schema/collector.ts";

/** What can be wrong with how a collector is used through the year. */
export const collectorUseProblems = {
  COLLECTOR_RETURN_WIND:
    "A collector cannot stay stowed only above a wind that is stronger than the one that stows it.",
  COLLECTOR_SOILING_LOST: "Dirt must leave some light on the day before washing.",
} as const;

/** Every fault of a collector's use; `path` is its place in the study, e.g. `collectors/0`. */
export function useFaults({ storm, soiling }: Collector, path: string): Problem[] {
  const problems: Problem[] = [];
  const fault = (code: keyof typeof collectorUseProblems, field: string, message: string) =>
    problems.push({ code, message, place: { path: `${path}/${field}` } });
  const { stowWind_m_s, returnWind_m_s } = storm;
  if (returnWind_m_s !== undefined && !(returnWind_m_s <= stowWind_m_s)) {
    fault(
      "COLLECTOR_RETURN_WIND",
      "storm/returnWind_m_s",
      `The collector stows above ${stowWind_m_s} m/s, so it cannot stay stowed only above ${returnWind_m_s} m/s; ` +
        `write ${stowWind_m_s} m/s or less.`,
    );
  }
  const daysOfDirt = (soiling?.washEvery_days ?? 1) - 1;
  if (soiling !== undefined && !(soiling.lossPerDay * daysOfDirt < 1)) {
    fault(
      "COLLECTOR_SOILING_LOST",
      "soiling/lossPerDay",
      `A loss of ${soiling.lossPerDay} a day leaves no light after ${daysOfDirt} days without washing; ` +
        "their product must stay below 1.",
    );
  }
  return problems;
}
