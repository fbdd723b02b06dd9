import type { Grant, Money, SharedCost } from "../study/schema/study.ts";
import type { CostPart } from "./cost-part.ts";

/** The parts of an item, by the unit or once it is built, and what it takes of shared things. */
export interface OwnCosts {
  readonly parts: readonly CostPart[];
  /** Land under it, m² of land by the unit. */
  readonly land_m2: number;
  readonly isSolar: boolean;
}

/** Which of the study's grants have reached their most, by their place; they give nothing for one more unit. */
export type FullGrants = readonly boolean[];

/**
 * An item's own parts with its share of everything that is told by share: shared costs, land, grants. Shared
 * costs last the whole period; grants count on the first price with shared costs, without land.
 */
export function withSharedShares(own: OwnCosts, money: Money, full: FullGrants = []): CostPart[] {
  const base = own.parts.reduce((all, part) => all + part.price_per_unit, 0);
  const shared = (money.sharedCosts ?? []).filter((cost) => counts(cost, own.isSolar));
  const shares = shared.map(
    (cost): CostPart => ({
      name: cost.name,
      price_per_unit: (cost.share ?? 0) * base,
      life_years: money.years,
      upkeep_per_unit_year: (cost.share_per_year ?? 0) * base,
    }),
  );
  const fundable = base + shares.reduce((all, part) => all + part.price_per_unit, 0);
  const grants = (money.grants ?? []).flatMap((grant, i) =>
    counts(grant, own.isSolar) && full[i] !== true ? [grantPart(grant, grant.share * fundable, money)] : [],
  );
  return [...own.parts, ...shares, ...landParts(own.land_m2, money), ...grants];
}

/** A grant as a part: money received with the purchase or, worth less by inflation, a year later. */
export function grantPart({ name, paid }: Grant, amount: number, money: Money): CostPart {
  const later = paid === "after-first-year";
  return {
    name,
    price_per_unit: -amount / (later ? 1 + (money.inflation_per_year ?? 0) : 1),
    life_years: money.years,
    upkeep_per_unit_year: 0,
    paidAfter_years: later ? 1 : 0,
  };
}

/** So many m² of land as a part of one unit. */
export function landParts(land_m2: number, { land }: Money): CostPart[] {
  if (land === undefined || !(land_m2 > 0)) return [];
  const { price_per_m2, rent_per_m2_year } = land;
  if (price_per_m2 === 0 && rent_per_m2_year === 0) return [];
  return [
    {
      name: "Land",
      price_per_unit: price_per_m2 * land_m2,
      life_years: Number.POSITIVE_INFINITY,
      upkeep_per_unit_year: rent_per_m2_year * land_m2,
    },
  ];
}

/** Whether a shared cost or grant counts on an item. */
export function counts({ on }: Pick<SharedCost | Grant, "on">, isSolar: boolean): boolean {
  return on === "all-new-plant" || isSolar;
}
