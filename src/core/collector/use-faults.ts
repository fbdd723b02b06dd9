import { monthLength_days, monthNames } from "../calendar.ts";
import type { Problem } from "../problem.ts";
import type { Collector } from "../study/schema/collector.ts";
import { daysOfOutage } from "./outage-days.ts";

/** What can be wrong with how a collector is used through the year. */
export const collectorUseProblems = {
  COLLECTOR_RETURN_WIND:
    "A collector cannot stay stowed only above a wind that is stronger than the one that stows it.",
  COLLECTOR_SOILING_LOST: "Dirt must leave some light on the day before washing.",
  COLLECTOR_OUTAGE_DATE: "An outage begins on a day of a year of 365 days.",
  COLLECTOR_OUTAGE_OVERLAP: "Planned outages of a collector may not overlap.",
} as const;

/** Every fault of a collector's use; `path` is its place in the study, e.g. `collectors/0`. */
export function useFaults({ storm, soiling, outages = [] }: Collector, path: string): Problem[] {
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
  outages.forEach(({ fromMonth, fromDay }, n) => {
    const length_days = monthLength_days(fromMonth);
    if (fromDay <= length_days) return;
    const month = monthNames[fromMonth - 1]!;
    fault(
      "COLLECTOR_OUTAGE_DATE",
      `outages/${n}/fromDay`,
      `There is no ${fromDay} ${month} in the study's year; ${month} has ${length_days} days.`,
    );
  });
  const taken = new Map<number, number>();
  outages.forEach((outage, n) => {
    if (outage.fromDay > monthLength_days(outage.fromMonth)) return;
    const days = daysOfOutage(outage);
    const other = days.map((day) => taken.get(day)).find((earlier) => earlier !== undefined);
    for (const day of days) if (!taken.has(day)) taken.set(day, n);
    if (other === undefined) return;
    fault(
      "COLLECTOR_OUTAGE_OVERLAP",
      `outages/${n}`,
      `Outage ${n + 1} covers days of outage ${other + 1}; give every day once.`,
    );
  });
  return problems;
}
