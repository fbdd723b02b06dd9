import { collectorLevel } from "../../collector/network-levels.ts";
import type { Problem } from "../../problem.ts";
import { checkStore } from "../../storage/store-capacity.ts";
import type { Network, Store, Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/** One owner each, one store an owner, a medium and temperatures that fit it. */
export function checkStores({ stores, networks, loads }: Study): Problem[] {
  const problems: Problem[] = [];
  const owners = new Map<string, string>();
  stores.forEach((store, i) => {
    const path = `stores/${i}`;
    problems.push(...checkStore(store, path), ...ofOwner(store, path));
    const owner = store.network ?? store.load;
    if (owner !== undefined && (store.network === undefined) !== (store.load === undefined)) {
      const other = owners.get(owner);
      if (other === undefined) owners.set(owner, store.id);
      else
        problems.push(
          fault(
            "STUDY_STORE_OWNER",
            path,
            `"${owner}" already has the store "${other}"; one store is allowed.`,
          ),
        );
    }
    const network = networks.find(({ id }) => id === store.network);
    if (network !== undefined && store.load === undefined) problems.push(...onNetwork(store, network, path));
    const load = loads.find(({ id }) => id === store.load);
    if (load?.kind === "cooling" && store.network === undefined && !(store.cold_C <= load.coldSupply_C))
      problems.push(
        fault(
          "STUDY_STORE_LEVELS",
          `${path}/cold_C`,
          `The store's cold side is ${store.cold_C} °C and the load needs ${load.coldSupply_C} °C; it must be at least as cold.`,
        ),
      );
  });
  return problems;
}

function ofOwner(store: Store, path: string): Problem[] {
  if ((store.network === undefined) === (store.load === undefined))
    return [
      fault(
        "STUDY_STORE_OWNER",
        path,
        store.network === undefined
          ? "The store names neither a heat network nor a cooling load; one of them is needed."
          : `The store names the network "${store.network}" and the load "${store.load}"; one of them is allowed.`,
      ),
    ];
  const cold = store.load !== undefined;
  if (cold === (store.medium === "chilled-water")) return [];
  return [
    fault(
      "STUDY_STORE_MEDIUM",
      `${path}/medium`,
      cold
        ? `The store of a cooling load holds ${store.medium}; chilled-water is allowed.`
        : "A store of chilled-water cannot serve a heat network; it is for cooling loads.",
    ),
  ];
}

function onNetwork(store: Store, network: Network, path: string): Problem[] {
  const problems: Problem[] = [];
  const { collectorOut_C } = collectorLevel(network);
  if (!(store.hot_C <= collectorOut_C))
    problems.push(
      fault(
        "STUDY_STORE_LEVELS",
        `${path}/hot_C`,
        `The store's hot side is ${store.hot_C} °C and the collectors deliver ${collectorOut_C} °C; it cannot be hotter.`,
      ),
    );
  if (!(store.hot_C >= network.supply_C))
    problems.push(
      fault(
        "STUDY_STORE_LEVELS",
        `${path}/hot_C`,
        `The store's hot side is ${store.hot_C} °C and the network supplies ${network.supply_C} °C; a cooler store cannot serve it.`,
      ),
    );
  // Heat to raise steam leaves its carrier above saturation, whatever the condensate does.
  const least_C = network.carrier === "steam" ? network.supply_C : network.return_C;
  if (!(store.cold_C >= least_C))
    problems.push(
      fault(
        "STUDY_STORE_LEVELS",
        `${path}/cold_C`,
        `The store's cold side is ${store.cold_C} °C; the network's ${network.carrier === "steam" ? "steam boils" : "return lies"} at ${least_C} °C, so it cannot be cooled below that.`,
      ),
    );
  return problems;
}
