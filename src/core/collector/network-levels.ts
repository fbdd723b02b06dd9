import type { Collector } from "../study/schema/collector.ts";
import type { Network } from "../study/schema/site.ts";

/** Temperatures at which the collector field works on a heat network. */
export interface CollectorLevel_C {
  readonly collectorIn_C: number;
  readonly collectorOut_C: number;
  readonly meanFluid_C: number;
}

/**
 * Collector inlet and outlet on a network: as given, else return and supply plus the exchanger's approach.
 * On a steam network `supply_C` is saturation, the steam is raised by fluid hotter than it, and the
 * condensate does not cool the field: both default to saturation plus the approach.
 */
export function collectorLevel(network: Network): CollectorLevel_C {
  const coolest_C = network.carrier === "steam" ? network.supply_C : network.return_C;
  const collectorIn_C = network.collectorIn_C ?? coolest_C + network.exchangerApproach_K;
  const collectorOut_C = network.collectorOut_C ?? network.supply_C + network.exchangerApproach_K;
  return { collectorIn_C, collectorOut_C, meanFluid_C: (collectorIn_C + collectorOut_C) / 2 };
}

/** Whether a collector may work at a level, and why not in a sentence; empty where there is nothing to say. */
export function canServe(
  collector: Pick<Collector, "name" | "highestOutlet_C">,
  level: { readonly collectorOut_C: number },
): { readonly possible: boolean; readonly remark: string } {
  if (collector.highestOutlet_C >= level.collectorOut_C) return { possible: true, remark: "" };
  return {
    possible: false,
    remark:
      `${collector.name} may leave at ${collector.highestOutlet_C} °C at most; ` +
      `the network needs ${level.collectorOut_C} °C from its collectors.`,
  };
}
