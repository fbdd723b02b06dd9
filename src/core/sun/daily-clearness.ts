import type { RandomStream } from "./random.ts";

/** Lag-one correlation of the days' clearness; Graham, Hollands & Brunger, Solar Energy 40 (1988) 83. */
const dayToDay = 0.29;
const least = 0.05;

/**
 * Clearness index of each day of a month, in a likely order: the n quantiles of the distribution of Bendt,
 * Collares-Pereira & Rabl (Solar Energy 27, 1981, 1; D&B eq. 2.9.6) dealt out by the ranks of a first-order
 * autoregressive sequence (0.29), so that every month has the whole distribution.
 *
 * @param mean monthly mean clearness index, 0.1 to 0.8
 */
export function dailyClearness(mean: number, days: number, random: RandomStream): Float64Array {
  const order = Array.from({ length: days }, (_, day) => day);
  const level = new Float64Array(days);
  let state = random.normal();
  for (let day = 0; day < days; day += 1) {
    state = dayToDay * state + Math.sqrt(1 - dayToDay * dayToDay) * random.normal();
    level[day] = state;
  }
  order.sort((a, b) => level[a]! - level[b]!);
  const clearness = new Float64Array(days);
  order.forEach((day, rank) => {
    clearness[day] = clearnessQuantile(mean, (rank + 0.5) / days);
  });
  return clearness;
}

/** Clearness of the clearest day; Hollands & Huget, Solar Energy 30 (1983) 195, D&B eq. 2.9.7c. */
export function clearestDay(mean: number): number {
  return 0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8;
}

/** Shape γ of the distribution; Herzog's fit, D&B eq. 2.9.7a–b. */
export function clearnessShape(mean: number): number {
  const most = clearestDay(mean);
  const xi = (most - least) / (most - mean);
  return -1.498 + (1.184 * xi - 27.182 * Math.exp(-1.5 * xi)) / (most - least);
}

/** The clearness index below which the share `f` of the days of a month lies. */
export function clearnessQuantile(mean: number, f: number): number {
  const most = clearestDay(mean);
  const gamma = clearnessShape(mean);
  if (Math.abs(gamma) < 1e-9) return least + f * (most - least);
  const low = Math.exp(gamma * least);
  return Math.log(low + f * (Math.exp(gamma * most) - low)) / gamma;
}
