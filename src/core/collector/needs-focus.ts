import type { Collector } from "../study/schema/collector.ts";

/** Whether it works with a focus: computed from a mirror's shape, or using beam only (Kd = 0). */
export function isConcentrating({ optics, diffuseModifier }: Collector): boolean {
  return optics.by === "shape" || diffuseModifier === 0;
}

/**
 * Whether the collector gets no light in hours in which its mount stops at a limit, short of the sun. A line
 * focus on a vertical axis keeps it: there the sun leaves the normal along the mirror's line.
 */
export function needsFocus(collector: Collector): boolean {
  const { mount, optics, endLoss } = collector;
  const isLine = endLoss !== undefined || (optics.by === "shape" && optics.shape === "trough");
  if (mount.type === "vertical-axis-tilting" && isLine) return false;
  return isConcentrating(collector);
}
