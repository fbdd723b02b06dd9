import type { Collector } from "../../core/study/schema/collector.ts";
import { joined } from "../../present/joined.ts";
import { asGiven } from "../../present/numbers.ts";

/**
 * When a collector gives no heat beside storms, in words: planned outages, the share under repair, light too weak to
 * start at. Empty where it has none of these.
 */
export function yieldLimits(collector: Collector, locale: string): string {
  const { outages = [], availability = 1, leastIrradiance_W_m2 = 0 } = collector;
  const days = outages.reduce((sum, outage) => sum + outage.days, 0);
  const limits = [
    ...(days > 0
      ? [`none in planned outages (${asGiven(days, locale)} ${days === 1 ? "day" : "days"} a year)`]
      : []),
    ...(availability < 1 ? [`${asGiven(availability, locale)} of the field in use at any time`] : []),
    ...(leastIrradiance_W_m2 > 0
      ? [`none below ${asGiven(leastIrradiance_W_m2, locale)} W/m² on the aperture`]
      : []),
  ];
  return limits.length === 0 ? "" : `${collector.name}: ${joined(limits)}`;
}
