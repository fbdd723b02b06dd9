import type { Part } from "../study/schema/study.ts";

/**
 * A part with one price a unit, as annual costs and cash flows count it: a part of the study at a size, or a
 * share of what belongs to no single part. A price below 0 is money received.
 */
export interface CostPart {
  readonly name: string;
  readonly price_per_unit: number;
  /** Infinity: it is never bought again and keeps its price, as land does. */
  readonly life_years: number;
  readonly upkeep_per_unit_year: number;
  /** Paid with the purchase (0 or left out) or at the end of the first year (1). */
  readonly paidAfter_years?: 0 | 1;
}

/** An item's costs as a line: so much a unit, and so much as soon as any of it is built. */
export interface LinearParts {
  readonly perUnit: readonly CostPart[];
  readonly onceBuilt: readonly CostPart[];
}

/**
 * What a part costs for an item of a size above 0, currency: fixed price + price · reference ·
 * (size/reference)^exponent; 0 for a size of 0. The power law of size of any text on plant costs, e.g. Peters,
 * Timmerhaus, Plant Design and Economics for Chemical Engineers, ch. "cost estimation" (form from memory).
 */
export function priceOfSize(part: Part, size: number): number {
  if (!(size > 0)) return 0;
  return (part.fixedPrice ?? 0) + sizedPrice(part, size);
}

/** A part with the mean price and upkeep a unit that it has at a size above 0; so that size · price is exact. */
export function partAtSize(part: Part, size: number): CostPart {
  return {
    name: part.name,
    price_per_unit: priceOfSize(part, size) / size,
    life_years: part.life_years,
    upkeep_per_unit_year: part.upkeep_per_unit_year + (part.fixedUpkeep_per_year ?? 0) / size,
  };
}

/**
 * The parts of an item as the tangent to their costs at a size: price by exponent · mean price, and what is
 * left of the cost once built. A cost that grows ever more slowly lies nowhere above its tangent. Without a size
 * each part has the price that it names, and only fixed prices are paid once.
 */
export function tangentParts(parts: readonly Part[], size: number | null): LinearParts {
  const perUnit: CostPart[] = [];
  const onceBuilt: CostPart[] = [];
  for (const part of parts) {
    const { name, life_years, upkeep_per_unit_year, scaleExponent = 1 } = part;
    const at = size ?? part.referenceSize ?? 1;
    const sized = sizedPrice(part, at);
    const slope = size === null ? part.price_per_unit : (scaleExponent * sized) / at;
    const rest = size === null ? 0 : sized - slope * at;
    perUnit.push({ name, life_years, upkeep_per_unit_year, price_per_unit: slope });
    const once = (part.fixedPrice ?? 0) + rest;
    const upkeep = part.fixedUpkeep_per_year ?? 0;
    if (once !== 0 || upkeep !== 0)
      onceBuilt.push({ name, life_years, upkeep_per_unit_year: upkeep, price_per_unit: once });
  }
  return { perUnit, onceBuilt };
}

/** Whether a part's cost is not simply in proportion to size. */
export function isScaled(part: Part): boolean {
  return hasExponent(part) || (part.fixedPrice ?? 0) > 0 || (part.fixedUpkeep_per_year ?? 0) > 0;
}

export function hasExponent({ scaleExponent, price_per_unit }: Part): boolean {
  return scaleExponent !== undefined && scaleExponent < 1 && price_per_unit > 0;
}

function sizedPrice({ price_per_unit, scaleExponent = 1, referenceSize = 1 }: Part, size: number): number {
  if (scaleExponent === 1) return price_per_unit * size;
  return price_per_unit * referenceSize * (size / referenceSize) ** scaleExponent;
}
