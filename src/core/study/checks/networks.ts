import { collectorLevel } from "../../collector/network-levels.ts";
import type { Problem } from "../../problem.ts";
import { type CarrierRange, carrierRanges } from "../carriers.ts";
import type { Network } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/**
 * Supply above return, and collector temperatures above both; on a steam network both lie above saturation.
 * Every temperature within what the carrier bears.
 */
export function checkNetworks(networks: readonly Network[]): Problem[] {
  return networks.flatMap((network, i) => [
    ...checkLevels(network, `networks/${i}`),
    ...checkCarrier(network, `networks/${i}`),
  ]);
}

function checkLevels(network: Network, path: string): Problem[] {
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
}

/** Temperatures of the network and of its collectors, but not those that only repeat a fault of the network's own. */
function checkCarrier(network: Network, path: string): Problem[] {
  const range = carrierRanges[network.carrier];
  const fits = (value_C: number) => value_C >= range.least_C && value_C <= range.most_C;
  const named = [
    ["supply_C", "the supply", network.supply_C],
    ["return_C", "the return", network.return_C],
  ] as const;
  const faults = named.filter(([, , value_C]) => !fits(value_C));
  // Steam is raised by another fluid, whose own limits the study does not know; its condensate is water.
  if (faults.length === 0 && network.carrier !== "steam") {
    const { collectorIn_C, collectorOut_C } = collectorLevel(network);
    const ofField = [
      ["collectorIn_C", "the collectors' inlet", collectorIn_C],
      ["collectorOut_C", "the collectors' outlet", collectorOut_C],
    ] as const;
    return ofField.filter(([, , value_C]) => !fits(value_C)).map(beyond(range, path));
  }
  return faults.map(beyond(range, path));
}

const beyond =
  ({ name, least_C, most_C, why }: CarrierRange, path: string) =>
  ([field, what, value_C]: readonly [string, string, number]) =>
    fault(
      "STUDY_CARRIER_LIMIT",
      `${path}/${field}`,
      `${name} cannot be used at ${value_C} °C, ${what}; ${least_C} to ${most_C} °C is allowed` +
        `${why === "" ? "" : ` (${why})`}.`,
    );
