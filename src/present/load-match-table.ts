import { reachable } from "../core/study/report/match-rows.ts";
import type { Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { asGiven } from "./numbers.ts";
import { energy } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** Each load with the temperature that it needs, and the collectors that can serve it, also by step-down or chiller. */
export function loadMatchTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const degrees = (value: number) => `${asGiven(Math.round(value), w.locale)} °C`;
  const networkOf = (id: string | null) => study.networks.find((network) => network.id === id);
  const rows = result.loads.flatMap((load): string[][] => {
    const chillers = study.chillers.filter((chiller) => chiller.load === load.id);
    const ways =
      load.network === null
        ? chillers.map(({ network, drivingLeast_C, name }) => ({
            network,
            needs: `${degrees(drivingLeast_C)} in ${name}`,
          }))
        : [{ network: load.network, needs: load.supply_C === null ? "–" : degrees(load.supply_C) }];
    if (ways.length === 0)
      return [[load.name, energy(load.energy_kWh, w), "no heat", "–", "none: no absorption chiller"]];
    return ways.map(({ network, needs }) => {
      const own = networkOf(network);
      return [
        load.name,
        energy(load.energy_kWh, w),
        needs,
        own === undefined ? "–" : `${own.name}, ${degrees(own.supply_C)}`,
        servedBy(study, result, network),
      ];
    });
  });
  return figuresTable(
    "What each load needs, and which collectors can serve it",
    ["Load", "Energy a year", "Needs heat at", "Heat network", "Collectors that reach it"],
    rows,
    ["Needs heat at", "Heat network", "Collectors that reach it"],
  );
}

function servedBy(study: Study, result: Result, network: string): string {
  const at = study.networks.findIndex(({ id }) => id === network);
  const feeding = study.networks.filter(({ id }) => reachable(study, id).includes(at)).map(({ id }) => id);
  const names = study.collectors.flatMap(({ id, name, networks }) => {
    const rows = result.match.filter(
      (row) =>
        row.collector === id &&
        row.possible &&
        networks.includes(row.network) &&
        feeding.includes(row.network),
    );
    if (rows.length === 0) return [];
    return [rows.some((row) => row.network === network) ? name : `${name} (by a hotter network)`];
  });
  return names.length === 0 ? "none" : names.join(", ");
}
