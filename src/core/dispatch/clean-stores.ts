import type { DispatchCase, StoreCase } from "./case.ts";
import { held } from "./held.ts";
import type { Layout } from "./layout.ts";
import { hasNegativePrice } from "./left-out.ts";

/** Share of a capacity or a year-long limit by which an answer may miss it. */
export const rounding = 1e-8;

/**
 * Where closing balances filled a store beyond its capacity by a trace, less is charged in that hour
 * and the sun that filled it is spilled; where it fell below nothing, backup serves instead.
 *
 * @returns whether anything was changed
 */
export function trimContent(problem: DispatchCase, layout: Layout, s: number, x: Float64Array): boolean {
  const store = problem.stores[s];
  if (!("network" in store.serves)) return false;
  const { network } = store.serves;
  const column = layout.sizes.stores[s];
  const capacity_kWh = store.size.existing + (column < 0 ? store.size.least : x[column]);
  const least_kWh = rounding * Math.max(1, capacity_kWh);
  const backup = problem.backups.findIndex((item) => item.network === network);
  let shift_kWh = 0;
  let isChanged = false;
  for (let t = 0; t < problem.blocks; t += 1) {
    const charge = layout.charge[s][t];
    const discharge = layout.discharge[s][t];
    const solar = layout.solar[network][t];
    if (charge < 0) continue;
    shift_kWh *= store.keep_per_h ** problem.step_h;
    const content_kWh = x[layout.content[s][t]] + shift_kWh;
    if (content_kWh > capacity_kWh + least_kWh && solar >= 0) {
      const over_kW = (content_kWh - capacity_kWh) / (store.chargeEfficiency * problem.step_h);
      const less_kW = Math.min(over_kW, x[charge], x[solar]);
      x[charge] -= less_kW;
      x[solar] -= less_kW;
      shift_kWh -= less_kW * store.chargeEfficiency * problem.step_h;
      isChanged ||= less_kW > 0;
    } else if (content_kWh < -least_kWh && backup >= 0 && layout.backup[backup][t] >= 0) {
      const less_kW = Math.min(-content_kWh / problem.step_h, x[discharge]);
      x[discharge] -= less_kW;
      x[layout.backup[backup][t]] += less_kW * store.dischargeEfficiency;
      shift_kWh += less_kW * problem.step_h;
      isChanged ||= less_kW > 0;
    }
  }
  return isChanged;
}

/**
 * A store without loss must give back in a cycle what it took in; what rounding leaves is spread over
 * its discharge. (One with a loss finds the content from which its cycle closes.)
 */
export function closeCycle(problem: DispatchCase, layout: Layout, s: number, x: Float64Array): void {
  const store = problem.stores[s];
  for (const { start, length } of problem.cycles) {
    if (layout.content[s][start] < 0 || 1 - store.keep_per_h ** (problem.step_h * length) > 1e-9) continue;
    let stored = 0;
    let drawn = 0;
    for (let t = start; t < start + length; t += 1) {
      stored += store.chargeEfficiency * x[layout.charge[s][t]];
      drawn += x[layout.discharge[s][t]];
    }
    if (drawn <= 0) continue;
    for (let t = start; t < start + length; t += 1) x[layout.discharge[s][t]] *= stored / drawn;
  }
}

/**
 * Keeps the change of content and gives what the network gains back to backup, then to spill. Where a
 * price is negative, wasting heat can pay and the program may do it in a store: it is netted only as
 * far as something that costs nothing to turn down takes up the gain.
 */
export function netStore(problem: DispatchCase, layout: Layout, s: number, x: Float64Array): void {
  const store = problem.stores[s];
  const wasteMayPay = hasNegativePrice(problem);
  for (let t = 0; t < problem.blocks; t += 1) {
    const g = layout.charge[s][t];
    const d = layout.discharge[s][t];
    if (g < 0 || !(x[g] > 0 && x[d] > 0)) continue;
    const change = store.chargeEfficiency * x[g] - x[d];
    const least = Math.max(0, change) / store.chargeEfficiency;
    const gain_per_kW = 1 - store.chargeEfficiency * store.dischargeEfficiency;
    const room_kW = wasteMayPay ? takenUpFreely(problem, layout, store, t, x) : Number.POSITIVE_INFINITY;
    if ((x[g] - least) * gain_per_kW <= room_kW) {
      x[g] = least;
      x[d] = Math.max(0, -change);
    } else {
      const less_kW = room_kW / gain_per_kW;
      x[g] -= less_kW;
      x[d] -= store.chargeEfficiency * less_kW;
    }
  }
}

/** Power beside a store that could be turned down at no cost, kW: backup and sun, or electric cold. */
function takenUpFreely(
  problem: DispatchCase,
  layout: Layout,
  { serves }: StoreCase,
  t: number,
  x: Float64Array,
): number {
  if ("cold" in serves)
    return problem.electricityPrice_per_kWh[t] < 0 ? 0 : held(layout.electricCold[serves.cold], t, x);
  let power_kW = held(layout.solar[serves.network], t, x);
  problem.backups.forEach((backup, i) => {
    if (backup.network === serves.network && backup.heatPrice_per_kWh[t] >= 0)
      power_kW += held(layout.backup[i], t, x);
  });
  return power_kW;
}

export function recomputeContent(problem: DispatchCase, layout: Layout, s: number, x: Float64Array): void {
  const store = problem.stores[s];
  const keep = store.keep_per_h ** problem.step_h;
  const { step_h } = problem;
  for (const { start, length } of problem.cycles) {
    if (layout.content[s][start] < 0) continue;
    const roll = (begin_kWh: number) => {
      let content = begin_kWh;
      for (let t = start; t < start + length; t += 1) {
        const stored = store.chargeEfficiency * x[layout.charge[s][t]] - x[layout.discharge[s][t]];
        content = keep * content + stored * step_h;
        x[layout.content[s][t]] = content;
      }
      return content;
    };
    const last = layout.content[s][start + length - 1];
    const given_kWh = x[last];
    const kept = 1 - keep ** length;
    // The content that closes the cycle exactly; a store without loss closes from any content.
    roll(kept > 1e-9 ? roll(0) / kept : given_kWh);
    for (let t = start; t < start + length; t += 1) {
      const column = layout.content[s][t];
      if (x[column] < 0 && x[column] > -1e-6) x[column] = 0;
    }
  }
}
