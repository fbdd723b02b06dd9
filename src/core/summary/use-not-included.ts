import type { Collector } from "../study/schema/collector.ts";

/** What the figures do not count of shade, dirt and days out of use, a sentence each; none without collectors. */
export function useNotIncluded(collectors: readonly Collector[]): string[] {
  if (collectors.length === 0) return [];
  const washed = collectors.filter(({ soiling }) => soiling !== undefined);
  const dirt = [
    ...(washed.length < collectors.length ? ["cleanliness is one figure for the year"] : []),
    ...(washed.length > 0
      ? ["where washing is given, every day brings the same dirt and rain takes none away"]
      : []),
  ];
  const isRepaired = ({ outages = [], availability }: Collector) =>
    outages.length > 0 || availability !== undefined;
  const repair = collectors.every(isRepaired) ? "" : "days out for repair, ";
  return [
    `Shade from buildings, trees and the horizon, soiling that changes with the season, ${repair}and snow; ` +
      `${dirt.join("; ")}.`,
    ...(washed.some(({ soiling }) => soiling?.water_L_per_m2 !== undefined)
      ? [
          "Washing: its water is told, but water, labour and vehicles cost only what the upkeep of the parts holds.",
        ]
      : []),
  ];
}
