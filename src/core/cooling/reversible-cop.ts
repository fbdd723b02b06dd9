import { kelvinAtZero_C } from "../units.ts";

/**
 * COP of a reversible heat-driven chiller (Carnot engine driving a Carnot refrigerator), cold per heat:
 * (1 − T_rejected/T_driving) · T_cold/(T_rejected − T_cold), temperatures in K.
 *
 * @returns 0 where the driving heat is no hotter than what takes the rejected heat; Infinity where that is
 *   no warmer than the cold
 */
export function reversibleCop(driving_C: number, rejected_C: number, chilled_C: number): number {
  if (driving_C <= rejected_C) return 0;
  const driving = driving_C + kelvinAtZero_C;
  const rejected = rejected_C + kelvinAtZero_C;
  return (1 - rejected / driving) * reversibleElectricCop(rejected_C, chilled_C);
}

/** COP of a Carnot refrigerator, cold per work: T_cold/(T_warm − T_cold) in K; Infinity where there is no lift. */
export function reversibleElectricCop(warm_C: number, cold_C: number): number {
  if (warm_C <= cold_C) return Number.POSITIVE_INFINITY;
  return (cold_C + kelvinAtZero_C) / (warm_C - cold_C);
}
