import { collectorLevel } from "../../collector/network-levels.ts";
import type { Problem } from "../../problem.ts";
import type { Network } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/** Supply above return, and collector temperatures above both. On a steam network both lie above saturation. */
export function checkNetworks(networks: readonly Network[]): Problem[] {
  return networks.flatMap((network, i) => {
    const path = `networks/${i}`;
    if (!(network.supply_C > network.return_C))
      return [
        fault(
          "STUDY_NETWORK_LEVELS",
          `${path}/return_C`,
          `Return is ${network.return_C} °C and supply ${network.supply_C} °C; supply must lie above return.`,
        ),
      ];
    const problems: Problem[] = [];
    const { collectorIn_C, collectorOut_C } = collectorLevel(network);
    const steam = network.carrier === "steam";
    const least_C = steam ? network.supply_C : network.return_C;
    if (!(collectorIn_C >= least_C))
      problems.push(
        fault(
          "STUDY_COLLECTOR_LEVELS",
          `${path}/collectorIn_C`,
          `The collectors' inlet is ${collectorIn_C} °C; on this ${steam ? "steam network, whose steam boils" : "network, whose return lies"} at ${least_C} °C, at least that is needed.`,
        ),
      );
    if (!(collectorOut_C >= collectorIn_C))
      problems.push(
        fault(
          "STUDY_COLLECTOR_LEVELS",
          `${path}/collectorOut_C`,
          `The collectors' outlet is ${collectorOut_C} °C and their inlet ${collectorIn_C} °C; the outlet must not lie below the inlet.`,
        ),
      );
    if (!(collectorOut_C >= network.supply_C))
      problems.push(
        fault(
          "STUDY_COLLECTOR_LEVELS",
          `${path}/collectorOut_C`,
          `The collectors' outlet is ${collectorOut_C} °C and the supply ${network.supply_C} °C; the outlet must not lie below the supply.`,
        ),
      );
    return problems;
  });
}
