import type { DispatchCase } from "../dispatch/case.ts";

/**
 * What a controller must keep to and the linear program does not know. Every list is in the order of
 * the case's lists; 0 means that there is no such rule.
 */
export interface OperatingRules {
  /** Networks from hot to cool. */
  readonly hotFirst: readonly number[];
  /** Share of a boiler's power below which it does not run. */
  readonly backupLeastShare: readonly number[];
  /** Place at which a boiler is called, from 1; those at one place by cost. */
  readonly backupOrder: readonly number[];
  readonly chillerLeastShare: readonly number[];
  /** Hours of full heat without cold when it starts, 0 to 1. */
  readonly chillerStartUp_h: readonly number[];
  readonly waterLeastShare: readonly number[];
  readonly waterStartUp_h: readonly number[];
  /** Power below which a store neither charges nor discharges. */
  readonly storeLeastPower_kW: readonly number[];
  /** Share of the capacity that a store regains before it switches back, 0 to 0.5. */
  readonly storeDeadBand: readonly number[];
}

/** A plant that may run at any part of its power; networks in the order that the step-downs give. */
export function noRules(problem: DispatchCase): OperatingRules {
  const none = (items: readonly unknown[]) => items.map(() => 0);
  return {
    hotFirst: hotFirst(problem),
    backupLeastShare: none(problem.backups),
    backupOrder: none(problem.backups),
    chillerLeastShare: none(problem.chillers),
    chillerStartUp_h: none(problem.chillers),
    waterLeastShare: none(problem.water),
    waterStartUp_h: none(problem.water),
    storeLeastPower_kW: none(problem.stores),
    storeDeadBand: none(problem.stores),
  };
}

/** Every network before those that it steps down to, otherwise in the case's order. */
function hotFirst({ networks, stepDowns }: DispatchCase): number[] {
  const placed: number[] = [];
  const waiting = new Set(networks.keys());
  while (waiting.size > 0) {
    const fed = (k: number) => stepDowns.some(({ from, to }) => to === k && waiting.has(from));
    const next = [...waiting].find((k) => !fed(k)) ?? Math.min(...waiting);
    placed.push(next);
    waiting.delete(next);
  }
  return placed;
}
