import type { Collector } from "../study/schema/collector.ts";

/** What the figures do not count of pipes between field and factory, a sentence each; none without collectors. */
export function pipesNotIncluded(collectors: readonly Collector[]): string[] {
  const piped = collectors.filter(({ pipes }) => pipes !== undefined);
  const whose = piped.length === 0 ? "" : " of collectors for which none are given";
  return [
    ...(piped.length < collectors.length
      ? [
          `Pipes between field and factory${whose}: their heat loss, their cooling by night and the heat to warm them ` +
            "again, their price and their pumps, but for what the study puts into the collector's own figures.",
        ]
      : []),
    ...(piped.length > 0
      ? [
          "Field pipes: valves, supports, wet or damaged insulation and the delay of the flow; price and pumps " +
            "count only as far as the collector's parts and electric power hold them.",
        ]
      : []),
  ];
}
