import type { NewSizes, SizeCase } from "../dispatch/case.ts";
import { type CostPart, isScaled, tangentParts } from "../economics/cost-part.ts";
import { annualCostPerUnit, initialPricePerUnit } from "../economics/part-cost.ts";
import { type FullGrants, withSharedShares } from "../economics/shared-costs.ts";
import { type PricedItem, pricedItems, sizeOfItem } from "./priced-items.ts";
import type { Study } from "./schema/study.ts";

/** What the program pays for an item: so much a unit, and what it cannot see, so much once any is built. */
export interface LinearCost {
  readonly item: PricedItem;
  /** Size at which the costs touch the true ones; null where each part has the price that it names. */
  readonly at: number | null;
  readonly annual_per_unit: number;
  readonly initial_per_unit: number;
  readonly annualOnceBuilt: number;
}

/** The sizes at which costs are taken as a line, and the grants that have reached their most there. */
export interface PricePoint {
  readonly sizes: NewSizes;
  readonly fields: readonly { readonly collector: number }[];
  readonly fullGrants: FullGrants;
}

/** Sizes below this are the solver's rounding, not plant. */
export const leastBuilt = 1e-6;

/**
 * Every item's costs as a line: shared costs, land and grants in it. Items with a scale exponent are taken at
 * their size of `point`; one that is not built there at the price that it names.
 */
export function linearCosts(study: Study, point: PricePoint | null = null): LinearCost[] {
  const { money } = study;
  const rate = money.realDiscountRate;
  return pricedItems(study).map((item) => {
    const size = point === null ? 0 : sizeOfItem(item, point.sizes, point.fields);
    const at = size > leastBuilt ? size : null;
    const { perUnit, onceBuilt } = tangentParts(item.parts, at);
    const whole = (parts: readonly CostPart[], land_m2: number) =>
      withSharedShares({ parts, land_m2, isSolar: item.isSolar }, money, point?.fullGrants);
    const unit = whole(perUnit, item.land_m2);
    const once = whole(onceBuilt, 0);
    return {
      item,
      at,
      annual_per_unit: annualCostPerUnit(unit, rate),
      initial_per_unit: initialPricePerUnit(unit),
      annualOnceBuilt: annualCostPerUnit(once, rate),
    };
  });
}

/** Whether any item has a fixed price or a scale exponent, any shared cost an amount, or any grant a most. */
export function hasCostsBeyondLine({ money, ...study }: Study): boolean {
  return (
    pricedItems({ money, ...study }).some(({ parts }) => parts.some(isScaled)) ||
    (money.grants ?? []).some(({ most }) => most !== undefined) ||
    (money.sharedCosts ?? []).some(({ amount = 0, amount_per_year = 0 }) => amount > 0 || amount_per_year > 0)
  );
}

/** The costs of one family as a lookup by its place in the study's list. */
export function costsByPlace(costs: readonly LinearCost[], family: PricedItem["family"]) {
  const found = new Map(costs.filter(({ item }) => item.family === family).map((c) => [c.item.index, c]));
  return (index: number): Pick<SizeCase, "annualCost_per_unit" | "initialCost_per_unit"> => {
    const cost = found.get(index);
    return {
      annualCost_per_unit: cost?.annual_per_unit ?? 0,
      initialCost_per_unit: cost?.initial_per_unit ?? 0,
    };
  };
}
