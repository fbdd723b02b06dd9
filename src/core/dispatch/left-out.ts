import { type BackupCase, type DispatchCase, movableHeat_kW } from "./case.ts";

/**
 * True where the backups of a network can meet whatever is asked, so that unmet heat is never needed.
 * Sizes that may be held at any value later count for nothing.
 */
export function isAlwaysMet(problem: DispatchCase, network: number, sizesStayOpen: boolean): boolean {
  let peak_kW = movableHeat_kW(problem, network);
  let fixed_kW = 0;
  for (const demand of problem.networks[network].fixed_kW) fixed_kW = Math.max(fixed_kW, demand);
  peak_kW += fixed_kW;
  let power_kW = 0;
  for (const backup of problem.backups) {
    if (backup.network !== network) continue;
    const share = backup.available === undefined ? 1 : smallest(backup.available);
    if (share === 0) continue;
    power_kW += share * backup.size.existing;
    const { least, most } = backup.size;
    // What a budget may forbid to build counts for nothing either.
    if (!sizesStayOpen) power_kW += share * (problem.limits.budget === null ? Math.max(least, most) : least);
  }
  return power_kW >= peak_kW;
}

/**
 * True where the row "charge ≤ collected + stepped down" could bind. It cannot with one backup that is
 * large enough for any hour at a price that never changes within a cycle and is not negative: heat
 * from it is then never worth storing.
 */
export function chargeRowNeeded(problem: DispatchCase, network: number): boolean {
  const backups = problem.backups.filter((backup) => backup.network === network);
  if (backups.length === 0 || backups.some((backup) => backup.mayCharge)) return false;
  const unlimited = backups.length === 1 && backups[0].size.existing === Number.POSITIVE_INFINITY;
  return !(unlimited && neverWorthKeeping(problem, backups[0]));
}

function neverWorthKeeping({ cycles }: DispatchCase, { heatPrice_per_kWh, available }: BackupCase): boolean {
  // Heat is worth keeping for an outage.
  if (available !== undefined) return false;
  return cycles.every(({ start, length }) => {
    const price = heatPrice_per_kWh[start];
    if (!(price >= 0)) return false;
    for (let t = start; t < start + length; t += 1) if (heatPrice_per_kWh[t] !== price) return false;
    return true;
  });
}

/** True where heat or electricity has a negative price in some block, so that wasting it could pay. */
export function hasNegativePrice({ backups, electricityPrice_per_kWh }: DispatchCase): boolean {
  const negative = (price: number) => price < 0;
  return (
    electricityPrice_per_kWh.some(negative) ||
    backups.some((backup) => backup.heatPrice_per_kWh.some(negative))
  );
}

function smallest(series: Float64Array): number {
  return series.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
}
