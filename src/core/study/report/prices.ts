import type { Plan } from "../../dispatch/read-plan.ts";
import type { PlantModel } from "../plant-model.ts";
import type { HeatPrice, PriceEntry, PriceState, Prices, Proof } from "../result.ts";
import { firstUnitWorth } from "./first-unit-worth.ts";
import { type LeastFavourableDual, leastFavourableDuals } from "./least-favourable-dual.ts";
import { limitPrices } from "./limit-prices.ts";
import { priceSentence } from "./price-sentences.ts";
import { seasonHourMeans } from "./season-hours.ts";
import { type SizeItem, sizeItems } from "./size-items.ts";
import { type Duals, reducedCostOf, shareOfRow } from "./unit-worth.ts";
import { withSizeColumns } from "./with-size-columns.ts";

/**
 * What the shadow prices of the program that gave the sizes say: the marginal cost of heat, what one more
 * unit of each size and limit would save, and at which price unbuilt plant would enter. Each is a
 * derivative of the least cost: it holds for small changes, one at a time. Duals need not be unique; then
 * a value lies between what one unit more and one unit less would do. Equations: docs/methods/prices.md.
 *
 * Heat is priced only where the sizes came from the full year, with sizes free to follow (long-run).
 */
export function pricesOf(
  model: PlantModel,
  plan: Plan,
  method: Proof["method"],
  found: Duals | null,
): Prices | null {
  if (found === null) return null;
  const duals = withSizeColumns(found);
  const { currency } = model.study.money;
  const leastFavourable = leastFavourableDuals(duals);
  const sizes = sizeItems(model, duals.formulation, duals.sizes).map((item) =>
    sizePrice(item, duals, leastFavourable),
  );
  const entries = [...sizes, ...limitPrices(model, plan, duals)];
  return {
    program: method,
    heat: method === "full-year" ? heatPrices(plan) : null,
    entries: entries.map((entry) => ({ ...entry, sentence: priceSentence(entry, currency) })),
  };
}

export type UnsaidEntry = Omit<PriceEntry, "sentence">;

/** Differences of money below this share of a unit's cost are the solver's rounding. */
export const priceRounding = 1e-6;

function sizePrice(item: SizeItem, duals: Duals, leastFavourable: LeastFavourableDual): UnsaidEntry {
  const { formulation } = duals;
  const { rows } = formulation.layout;
  const { kind, id, network, unit, size, existing, annualCost_per_unit, initialCost_per_unit } = item;
  const reduced = costOfOneMore(item, duals, leastFavourable);
  // A limit shared by several fields is loosened along with the size, so its price is no cost of the unit.
  const shared = shareOfRow(duals, item.column, item.sharedRow);
  const value = reduced === null ? null : tidy(shared - reduced, annualCost_per_unit);
  const state = stateOf(item, reduced, shared);
  const dearOfBudget = shareOfRow(duals, item.column, rows.budget);
  const entry =
    state === "unbuilt" && reduced !== null ? entryFactor(annualCost_per_unit + dearOfBudget, reduced) : null;
  return {
    kind,
    what: item.name,
    item: id,
    network,
    size,
    existing,
    unit,
    state,
    annualCost_per_unit,
    value_per_unit: value,
    rationed: dearOfBudget > priceRounding || shareOfRow(duals, item.column, rows.land) > priceRounding,
    entry:
      entry === null
        ? null
        : {
            factor: entry,
            annualCost_per_unit: entry * annualCost_per_unit,
            initialPrice_per_unit: entry * initialCost_per_unit,
          },
  };
}

/**
 * Annual cost of one more unit, everything else free to follow. Of plant that does not exist yet the
 * solver's duals may promise too much, so the first unit is priced apart; else it is the reduced cost.
 */
function costOfOneMore(item: SizeItem, duals: Duals, leastFavourable: LeastFavourableDual): number | null {
  const reduced = reducedCostOf(duals, item.column);
  const isNothing = item.size <= leastSize && item.existing === 0;
  if (reduced === null || !isNothing) return reduced;
  const worth = firstUnitWorth(item, duals, leastFavourable);
  if (worth === null) return reduced;
  const { program, layout } = duals.formulation;
  const shares = [layout.rows.land, layout.rows.budget, item.sharedRow].map((row) =>
    shareOfRow(duals, item.column, row),
  );
  return shares.reduce((all, share) => all + share, program.cost[item.column] - worth);
}

/**
 * The factor on all of an item's prices at which its reduced cost is nothing. Its prices count twice where
 * the budget binds, as annual cost and as capital, so both scale. Negative: not even as a gift.
 */
function entryFactor(priced_per_unit: number, reduced: number): number | null {
  return priced_per_unit > 0 ? 1 - Math.max(0, reduced) / priced_per_unit : null;
}

/** A size is at a bound where it lies nearer to it than its reduced cost, relatively, lies to nothing. */
function stateOf(item: SizeItem, reduced: number | null, shared: number): PriceState {
  const { size, least, most, annualCost_per_unit } = item;
  if (least === most) return "fixed";
  const scale = Math.max(annualCost_per_unit, priceRounding);
  const pull = reduced === null ? 0 : reduced / scale;
  const near = (gap: number, towards: number) =>
    gap <= Math.max(leastSize, 1e-9 * size) || (towards > priceRounding && gap < Math.min(1, towards));
  if (near(size - least, pull)) {
    if (least > 0) return pull > priceRounding ? "at its limit" : "built";
    return "unbuilt";
  }
  if (near(most - size, -pull)) return "at its limit";
  return Math.abs(shared) > priceRounding * scale ? "at its limit" : "built";
}

/** Sizes below this are the solver's rounding. */
const leastSize = 1e-6;

const tidy = (value: number, scale: number) =>
  Math.abs(value) <= priceRounding * Math.max(scale, priceRounding) ? 0 : value;

function heatPrices(plan: Plan): HeatPrice[] {
  return plan.hours.networks.flatMap(({ id, marginal_per_kWh, demand_kW }) => {
    if (marginal_per_kWh.some(Number.isNaN)) return [];
    let paid = 0;
    let drawn_kWh = 0;
    let sum = 0;
    let least_per_kWh = Number.POSITIVE_INFINITY;
    let most_per_kWh = Number.NEGATIVE_INFINITY;
    for (let t = 0; t < demand_kW.length; t += 1) {
      const price = marginal_per_kWh[t];
      paid += price * demand_kW[t];
      drawn_kWh += demand_kW[t];
      sum += price;
      least_per_kWh = Math.min(least_per_kWh, price);
      most_per_kWh = Math.max(most_per_kWh, price);
    }
    const scale = Math.max(Math.abs(least_per_kWh), Math.abs(most_per_kWh));
    return [
      {
        network: id,
        mean_per_kWh: drawn_kWh > 0 ? paid / drawn_kWh : sum / demand_kW.length,
        least_per_kWh: tidy(least_per_kWh, scale),
        most_per_kWh: tidy(most_per_kWh, scale),
        bySeasonAndHour_per_kWh: seasonHourMeans(marginal_per_kWh, demand_kW).map((row) =>
          Array.from(row, (price) => tidy(price, scale)),
        ),
      },
    ];
  });
}
