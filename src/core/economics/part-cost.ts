import type { MoneyFigures } from "../study/result.ts";
import type { Part } from "../study/schema/study.ts";
import { capitalRecovery } from "./annuity.ts";

/** So many m², kWh or kW of a part that is bought new. */
export interface PartQuantity {
  readonly part: Part;
  readonly quantity: number;
}

/**
 * What one unit (m², kWh, kW) costs a year: Σ price · CRF(rate, that part's life) + upkeep.
 * A film changed every two years is a part with a two-year life.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function annualCostPerUnit(parts: readonly Part[], rate: number): number {
  return parts.reduce((sum, part) => sum + annualCost(part, rate), 0);
}

/** What one unit costs to buy, all parts once; replacements are not in it. */
export function initialPricePerUnit(parts: readonly Part[]): number {
  return parts.reduce((sum, part) => sum + part.price_per_unit, 0);
}

/** Σ quantity · annual cost of each part, currency per year. */
export function annualCostOf(bought: readonly PartQuantity[], rate: number): number {
  return bought.reduce((sum, { part, quantity }) => sum + quantity * annualCost(part, rate), 0);
}

/** Σ quantity · price, currency. */
export function initialCapitalOf(bought: readonly PartQuantity[]): number {
  return bought.reduce((sum, { part, quantity }) => sum + quantity * part.price_per_unit, 0);
}

/** What a line of the list of parts says beside the part itself. */
export interface PartLineInput extends PartQuantity {
  readonly item: string;
  /** m², kWh or kW. */
  readonly unit: string;
}

/** One line of `money.parts` in the result. */
export function partLine(input: PartLineInput, rate: number): MoneyFigures["parts"][number] {
  const { item, part, quantity, unit } = input;
  return {
    item,
    part: part.name,
    quantity,
    unit,
    price: quantity * part.price_per_unit,
    life_years: part.life_years,
    upkeep_per_year: quantity * part.upkeep_per_unit_year,
    annualCost: quantity * annualCost(part, rate),
  };
}

function annualCost(part: Part, rate: number): number {
  return part.price_per_unit * capitalRecovery(rate, part.life_years) + part.upkeep_per_unit_year;
}
