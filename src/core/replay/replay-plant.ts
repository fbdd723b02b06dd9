import type { DispatchCase } from "../dispatch/case.ts";
import { type HeatRoute, heatRoutes } from "./heat-routes.ts";
import type { OperatingRules } from "./operating-rules.ts";
import { waterReserves } from "./water-reserves.ts";

/** A backup and a way of its heat to a network. */
export interface BackupRoute {
  readonly backup: number;
  readonly route: HeatRoute;
}

/** What a controller can look up about a plant, whatever its sizes; made once for many replays. */
export interface ReplayPlant {
  readonly problem: DispatchCase;
  readonly rules: OperatingRules;
  /** By network. */
  readonly routes: readonly (readonly HeatRoute[])[];
  readonly backupRoutes: readonly (readonly BackupRoute[])[];
  readonly storesOfNetwork: readonly (readonly number[])[];
  readonly storesOfCold: readonly (readonly number[])[];
  readonly chillersOfCold: readonly (readonly number[])[];
  /** Whether a network or a cooler one that it feeds has loads other than chillers, 1 or 0. */
  readonly hasOtherUse: Uint8Array;
  /** By store: share of the content kept over a block. */
  readonly keep: Float64Array;
  /** Network that a store serves, −1 for cold. */
  readonly networkOfStore: Int32Array;
  /** By backup, then block. */
  readonly backupPrice_per_kWh: readonly Float64Array[];
  /** By batch load, then block: the window that is open, −1 where none is. */
  readonly windowAt: readonly Int32Array[];
  /** By batch load, then block: open blocks of that window still to come. */
  readonly windowLeft: readonly Int32Array[];
  /** By water order, then block. */
  readonly waterReserve_m3: readonly Float64Array[];
}

export function replayPlant(problem: DispatchCase, rules: OperatingRules): ReplayPlant {
  const { networks, stores, chillers, cold, water, batches, backups, stepDowns, blocks } = problem;
  const indices = <T>(items: readonly T[], fits: (item: T) => boolean) =>
    items.flatMap((item, i) => (fits(item) ? [i] : []));
  const routes = heatRoutes(problem);
  const own = networks.map(
    ({ fixed_kW }, k) =>
      fixed_kW.some((heat) => heat > 0) ||
      water.some(({ network }) => network === k) ||
      batches.some(({ network }) => network === k),
  );
  const feeds = (k: number): boolean =>
    own[k] || stepDowns.some(({ from, to }) => from === k && to !== k && feeds(to));
  const windows = batches.map((batch) => batchWindows(batch.windows, blocks));
  return {
    problem,
    rules,
    routes,
    backupRoutes: routes.map((ways) =>
      ways.flatMap((route) =>
        backups.flatMap(({ network }, backup) => (network === route.source ? [{ backup, route }] : [])),
      ),
    ),
    storesOfNetwork: networks.map((_, k) =>
      indices(stores, ({ serves }) => "network" in serves && serves.network === k),
    ),
    storesOfCold: cold.map((_, c) => indices(stores, ({ serves }) => "cold" in serves && serves.cold === c)),
    chillersOfCold: cold.map((_, c) => indices(chillers, (item) => item.cold === c)),
    hasOtherUse: Uint8Array.from(networks, (_, k) => (feeds(k) ? 1 : 0)),
    keep: Float64Array.from(stores, ({ keep_per_h }) => keep_per_h ** problem.step_h),
    networkOfStore: Int32Array.from(stores, ({ serves }) => ("network" in serves ? serves.network : -1)),
    backupPrice_per_kWh: backups.map(({ heatPrice_per_kWh }) => heatPrice_per_kWh),
    windowAt: windows.map(({ at }) => at),
    windowLeft: windows.map(({ left }) => left),
    waterReserve_m3: waterReserves(problem),
  };
}

/** A window that wraps the end of its cycle is run in the order in which its blocks come in the replay. */
function batchWindows(windows: readonly Int32Array[], blocks: number) {
  const at = new Int32Array(blocks).fill(-1);
  const left = new Int32Array(blocks);
  windows.forEach((window, n) => {
    window.toSorted().forEach((block, place) => {
      at[block] = n;
      left[block] = window.length - 1 - place;
    });
  });
  return { at, left };
}
