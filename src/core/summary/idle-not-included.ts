import type { Collector } from "../study/schema/collector.ts";

/** What the figures do not count of collectors that stand still, a sentence each; none without collectors. */
export function idleNotIncluded(collectors: readonly Collector[]): string[] {
  if (collectors.length === 0) return [];
  const guarded = collectors.filter(({ frost }) => frost !== undefined);
  const idlePower = collectors.every((c) => c.tracking_W_m2 !== undefined || c.blower_W_m2 !== undefined);
  const power = idlePower ? "" : "; blowers and drives in hours without useful heat";
  const standing = `what happens to a field that stands full of sun without flow${power}.`;
  if (guarded.length === 0)
    return [
      "Frost, stagnation, idle hours: heat or electricity that keeps collectors from freezing, and " +
        standing,
    ];
  const others =
    guarded.length < collectors.length
      ? "of collectors without frost protection the heat that they need against frost; "
      : "";
  return [
    `Frost, stagnation, idle hours: ${others}pumps and valves of the frost protection, freezing when it fails, and ${standing}`,
  ];
}
