import type { DispatchCase } from "../../dispatch/case.ts";
import type { Formulation } from "../../dispatch/formulate.ts";
import type { SizeItem } from "./size-items.ts";
import type { Duals } from "./unit-worth.ts";

/**
 * What the first unit of plant that does not exist yet would save in a year's operation, at the other
 * plant's shadow prices. Plant of size zero does nothing, so its own rows' duals are not unique and a
 * solver may give any that its price allows; here they are the least that its own columns leave room for,
 * which is what a price-taking unit earns. Null where the item has no column.
 */
export function firstUnitWorth(item: SizeItem, duals: Duals): number | null {
  const { index } = item;
  if (item.column < 0) return null;
  const { layout, problem } = duals.formulation;
  switch (item.kind) {
    case "aperture":
      return limitedWorth(item.column, layout.solar[problem.fields[index].network], duals);
    case "step-down":
      return limitedWorth(item.column, layout.stepDown[index], duals);
    case "chiller":
      return limitedWorth(item.column, layout.chilled[index], duals);
    case "backup":
      return limitedWorth(item.column, layout.backup[index], duals);
    case "charger":
      return limitedWorth(item.column, layout.charge[index], duals);
    case "store":
      return storeWorth(index, duals);
    default:
      return null;
  }
}

/** Σ over the hours of what a unit more in the column's upper limit earns, where it earns anything. */
function limitedWorth(size: number, hourly: Int32Array, duals: Duals): number {
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
    if (allowed > 0) worth += allowed * Math.max(0, -costBeside(column, allowed_per_unit, duals));
  }
  return worth;
}

/** A column's cost with the duals of all rows but some. */
function costBeside(
  column: number,
  without: { has(row: number): boolean },
  { formulation, rowDual }: Duals,
): number {
  const { cost, starts, indices, values } = formulation.program;
  let beside = cost[column];
  for (let e = starts[column]; e < starts[column + 1]; e += 1) {
    if (!without.has(indices[e])) beside -= rowDual[indices[e]] * values[e];
  }
  return beside;
}

/**
 * What a first kWh of store earns by buying and selling at the network's shadow prices. The price p of
 * content lies between what selling brings and what buying costs; a kWh of room earns
 * Σ max(0, keep·p′ − p) with p′ the price an hour later. Going backwards, the p nearest to keep·p′ makes
 * that sum least, because what it leaves open now can come back earlier by the share kept at most.
 */
function storeWorth(s: number, duals: Duals): number {
  const { formulation } = duals;
  const { problem } = formulation;
  const { keep_per_h } = problem.stores[s];
  const keep = keep_per_h ** problem.step_h;
  let worth = 0;
  for (const { start, length } of problem.cycles) {
    const { buying, selling } = contentPrices(problem, s, start, length, duals);
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
function contentPrices(problem: DispatchCase, s: number, start: number, length: number, duals: Duals) {
  const { chargeEfficiency } = problem.stores[s];
  const { charge, discharge, content } = duals.formulation.layout;
  const buying = new Float64Array(length).fill(Number.POSITIVE_INFINITY);
  const selling = new Float64Array(length).fill(Number.NEGATIVE_INFINITY);
  for (let t = start; t < start + length; t += 1) {
    if (content[s][t] < 0) continue;
    const own = stateRows(duals.formulation, content[s][t]);
    const g = charge[s][t];
    const d = discharge[s][t];
    if (g >= 0) buying[t - start] = costBeside(g, own, duals) / (chargeEfficiency * problem.step_h);
    if (d >= 0) selling[t - start] = -costBeside(d, own, duals) / problem.step_h;
  }
  return { buying, selling };
}

/** The rows that a content column stands in: its state, the next one's and its capacity. */
function stateRows({ program }: Formulation, content: number): Set<number> {
  return new Set(program.indices.subarray(program.starts[content], program.starts[content + 1]));
}
