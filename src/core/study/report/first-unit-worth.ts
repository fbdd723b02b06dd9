import type { Cycle, DispatchCase } from "../../dispatch/case.ts";
import type { Formulation } from "../../dispatch/formulate.ts";
import { hasNegativePrice } from "../../dispatch/left-out.ts";
import type { LeastFavourableDual } from "./least-favourable-dual.ts";
import type { SizeItem } from "./size-items.ts";
import { type Duals, shareOfRow } from "./unit-worth.ts";

/**
 * What the first unit of plant that does not exist yet would save in a year's operation, at the other
 * plant's shadow prices. Plant of size zero does nothing, so its own rows' duals are not unique and a
 * solver may give any that its price allows; here they are the least that its own columns leave room for,
 * which is what a price-taking unit earns, selling low and buying dear where other rows' duals leave a
 * choice. Null where the item has no column, and for stores where a price is negative, since wasting heat
 * in them may then pay.
 */
export function firstUnitWorth(
  item: SizeItem,
  duals: Duals,
  leastFavourable: LeastFavourableDual,
): number | null {
  const { index } = item;
  if (item.column < 0) return null;
  const { layout, problem } = duals.formulation;
  switch (item.kind) {
    case "aperture":
      return limitedWorth(item.column, layout.solar[problem.fields[index].network], duals, leastFavourable);
    case "step-down":
      return limitedWorth(item.column, layout.stepDown[index], duals, leastFavourable);
    case "chiller":
      return limitedWorth(item.column, layout.chilled[index], duals, leastFavourable);
    case "backup":
      return limitedWorth(item.column, layout.backup[index], duals, leastFavourable);
    case "charger":
      return storeStaysOut(index, item.column, duals, leastFavourable)
        ? 0
        : limitedWorth(item.column, layout.charge[index], duals, leastFavourable);
    case "store":
      return hasNegativePrice(problem) ? null : storeWorth(index, duals, leastFavourable);
    default:
      return null;
  }
}

/** True where a charger has no store to charge, and even free charging would not make one pay. */
function storeStaysOut(
  s: number,
  charger: number,
  duals: Duals,
  leastFavourable: LeastFavourableDual,
): boolean {
  const { program, problem, layout } = duals.formulation;
  const column = layout.sizes.stores[s];
  if (problem.stores[s].size.existing + duals.sizes.stores_kWh[s] > 1e-6) return false;
  if (column < 0) return true;
  if (hasNegativePrice(problem)) return false;
  const cost = program.cost[column] + shareOfRow(duals, column, layout.rows.budget);
  return storeWorth(s, duals, leastFavourable, charger) <= cost;
}

/** Σ over the hours of what a unit more in the column's upper limit earns, where it earns anything. */
function limitedWorth(
  size: number,
  hourly: Int32Array,
  duals: Duals,
  leastFavourable: LeastFavourableDual,
): number {
  const { starts, indices, values } = duals.formulation.program;
  const allowed_per_unit = new Map<number, number>();
  for (let e = starts[size]; e < starts[size + 1]; e += 1) allowed_per_unit.set(indices[e], -values[e]);
  let worth = 0;
  for (const column of hourly) {
    if (column < 0) continue;
    let allowed = 0;
    for (let e = starts[column]; e < starts[column + 1]; e += 1) {
      allowed += allowed_per_unit.get(indices[e]) ?? 0;
    }
    if (allowed > 0)
      worth += allowed * Math.max(0, -costBeside(column, allowed_per_unit, [column], duals, leastFavourable));
  }
  return worth;
}

/** A column's cost with the duals of all rows but some, the least favourable ones. */
function costBeside(
  column: number,
  without: { has(row: number): boolean },
  own: readonly number[],
  { formulation }: Duals,
  leastFavourable: LeastFavourableDual,
): number {
  const { cost, starts, indices, values } = formulation.program;
  const isOwn = (other: number) => own.includes(other);
  const moved = new Map<number, number>();
  let beside = cost[column];
  for (let e = starts[column]; e < starts[column + 1]; e += 1) {
    const row = indices[e];
    if (without.has(row)) continue;
    const dual = leastFavourable(row, values[e], isOwn, moved);
    moved.set(row, dual);
    beside -= dual * values[e];
  }
  return beside;
}

/**
 * What a first kWh of store earns by buying and selling at the network's shadow prices. The price p of
 * content lies between what selling brings and what buying costs; a kWh of room earns
 * Σ max(0, keep·p′ − p) with p′ the price an hour later. Going backwards, the p nearest to keep·p′ makes
 * that sum least, because what it leaves open now can come back earlier by the share kept at most.
 */
function storeWorth(s: number, duals: Duals, leastFavourable: LeastFavourableDual, freeCharger = -1): number {
  const { formulation } = duals;
  const { problem } = formulation;
  const { keep_per_h } = problem.stores[s];
  const keep = keep_per_h ** problem.step_h;
  let worth = 0;
  for (const { start, length } of problem.cycles) {
    const { buying, selling } = contentPrices(
      problem,
      s,
      { start, length },
      duals,
      leastFavourable,
      freeCharger,
    );
    let later = 0;
    let earned = 0;
    // The first time round finds the price at the cycle's end, the second counts.
    for (let n = 2 * length - 1; n >= 0; n -= 1) {
      const t = n % length;
      const price = Math.min(Math.max(keep * later, selling[t]), buying[t]);
      if (n < length) earned += Math.max(0, keep * later - price);
      later = price;
    }
    worth += earned;
  }
  return worth;
}

/** Cost of a kWh of content by charging, and what it brings by discharging, block by block of a cycle. */
function contentPrices(
  problem: DispatchCase,
  s: number,
  { start, length }: Cycle,
  duals: Duals,
  leastFavourable: LeastFavourableDual,
  freeCharger: number,
) {
  const { chargeEfficiency } = problem.stores[s];
  const { charge, discharge, content } = duals.formulation.layout;
  const buying = new Float64Array(length).fill(Number.POSITIVE_INFINITY);
  const selling = new Float64Array(length).fill(Number.NEGATIVE_INFINITY);
  const free = freeCharger < 0 ? new Set<number>() : rowsOf(duals.formulation, freeCharger);
  for (let t = start; t < start + length; t += 1) {
    if (content[s][t] < 0) continue;
    const states = rowsOf(duals.formulation, content[s][t]);
    const g = charge[s][t];
    const d = discharge[s][t];
    const without = { has: (row: number) => states.has(row) || free.has(row) };
    const beside = (column: number) => costBeside(column, without, [g, d], duals, leastFavourable);
    if (g >= 0) buying[t - start] = beside(g) / (chargeEfficiency * problem.step_h);
    if (d >= 0) selling[t - start] = -beside(d) / problem.step_h;
  }
  return { buying, selling };
}

/** The rows that a column stands in; of a content its state, the next one's and its capacity. */
function rowsOf({ program }: Formulation, column: number): Set<number> {
  return new Set(program.indices.subarray(program.starts[column], program.starts[column + 1]));
}
