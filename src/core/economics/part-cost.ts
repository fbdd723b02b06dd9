import type { MoneyFigures } from "../study/result.ts";
import { capitalRecovery } from "./annuity.ts";
import type { CostPart } from "./cost-part.ts";

/** So many m², kWh or kW of a part that is bought new. */
export interface PartQuantity {
  readonly part: CostPart;
  readonly quantity: number;
}

/**
 * What one unit (m², kWh, kW) costs a year: Σ price · CRF(rate, that part's life) + upkeep.
 * A film changed every two years is a part with a two-year life; land, which keeps its price, costs its interest.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function annualCostPerUnit(parts: readonly CostPart[], rate: number): number {
  return parts.reduce((sum, part) => sum + annualCost(part, rate), 0);
}

/** What one unit costs to buy, all parts once; replacements and what is paid a year later are not in it. */
export function initialPricePerUnit(parts: readonly CostPart[]): number {
  return parts.reduce((sum, part) => sum + paidAtOnce(part), 0);
}

/** Σ quantity · annual cost of each part, currency per year. */
export function annualCostOf(bought: readonly PartQuantity[], rate: number): number {
  return bought.reduce((sum, { part, quantity }) => sum + quantity * annualCost(part, rate), 0);
}

/** Σ quantity · price, currency, of what is paid with the purchase. */
export function initialCapitalOf(bought: readonly PartQuantity[]): number {
  return bought.reduce((sum, { part, quantity }) => sum + quantity * paidAtOnce(part), 0);
}

/** What a line of the list of parts says beside the part itself. */
export interface PartLineInput extends PartQuantity {
  readonly item: string;
  /** m², kWh or kW; empty where the part is one sum. */
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
    life_years: Number.isFinite(part.life_years) ? part.life_years : null,
    upkeep_per_year: quantity * part.upkeep_per_unit_year,
    annualCost: quantity * annualCost(part, rate),
    ...(part.paidAfter_years === 1 ? { paidAfterFirstYear: true } : {}),
  };
}

function paidAtOnce({ price_per_unit, paidAfter_years }: CostPart): number {
  return paidAfter_years === 1 ? 0 : price_per_unit;
}

function annualCost(part: CostPart, rate: number): number {
  const { price_per_unit, life_years, upkeep_per_unit_year, paidAfter_years = 0 } = part;
  if (life_years === Number.POSITIVE_INFINITY) return price_per_unit * rate + upkeep_per_unit_year;
  const worth = paidAfter_years === 1 ? price_per_unit / (1 + rate) : price_per_unit;
  return worth * capitalRecovery(rate, life_years) + upkeep_per_unit_year;
}
