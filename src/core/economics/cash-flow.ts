import { ModelError } from "../errors.ts";
import type { CashFlowYear } from "../study/result.ts";
import { initialCapitalOf, type PartQuantity } from "./part-cost.ts";
import { renewal } from "./replacements.ts";

/** Money that the plant avoids each year: fuel, electricity or carbon, each with its own price rise. */
export interface AvoidedStream {
  /** In the first year's prices; negative where the plant needs more, e.g. electricity for pumps. */
  readonly amount_per_year: number;
  /** Real price rise, 1/a; the first year's flow is not grown. */
  readonly growth: number;
  /** Price of each year per price of the first, in place of the rise (price-years.ts); years from the first on. */
  readonly yearFactors?: ArrayLike<number>;
  /** Added to `amount_per_year` in each year, in the first year's prices, e.g. as the film ages; 0 where left out. */
  readonly changeByYear?: readonly number[];
}

export interface CashFlowInput {
  /** New plant, bought at time 0; what exists costs nothing. */
  readonly bought: readonly PartQuantity[];
  /** Whole years, at least 1. */
  readonly years: number;
  /** Real, 1/a. It sets the residual and the interest within a year; flows are not discounted here. */
  readonly rate: number;
  readonly avoided: readonly AvoidedStream[];
}

/**
 * Money in and out, year by year: entry 0 is the purchase, entry t the end of year t.
 *
 * Every column is an amount ≥ 0 of what its name says, except `avoided`, `net` and `cumulative`,
 * which may be negative; net = avoided + residual − capital − replacements − upkeep. `cumulative`
 * adds up `net` without discounting. Prices of parts do not rise (real money).
 *
 * With avoided flows that do not grow, NPV = (avoided − annual cost of the parts) · P/A(rate, years)
 * exactly, for any lives (see renewal()).
 *
 * @returns years + 1 entries
 * @throws ModelError OUT_OF_RANGE, SERIES_LENGTH
 */
export function cashFlow(input: CashFlowInput): CashFlowYear[] {
  const { bought, years, rate, avoided } = input;
  if (!(Number.isInteger(years) && years >= 1)) throw new ModelError("OUT_OF_RANGE", `${years} years`);
  for (const { changeByYear } of avoided) {
    if (changeByYear !== undefined && changeByYear.length !== years)
      throw new ModelError("SERIES_LENGTH", `${changeByYear.length} yearly changes for ${years} years`);
  }

  const replacements = new Float64Array(years + 1);
  let residual = 0;
  let upkeep = 0;
  let credits = 0;
  for (const { part, quantity } of bought) {
    if (part.paidAfter_years === 1) {
      credits -= quantity * part.price_per_unit;
      continue;
    }
    const again = renewal(part.life_years, years, rate);
    const price = quantity * part.price_per_unit;
    for (let year = 1; year <= years; year++) replacements[year] += price * again.replacements[year - 1];
    residual += price * again.residual;
    upkeep += quantity * part.upkeep_per_unit_year;
  }

  const capital = initialCapitalOf(bought);
  const rows: CashFlowYear[] = [
    {
      year: 0,
      capital,
      replacements: 0,
      upkeep: 0,
      avoided: 0,
      credits: 0,
      residual: 0,
      net: 0 - capital,
      cumulative: 0 - capital,
    },
  ];
  for (let year = 1; year <= years; year++) {
    const saved = avoided.reduce((sum, stream) => sum + amountIn(year, stream), 0);
    const left = year === years ? residual : 0;
    const credited = year === 1 ? credits : 0;
    const net = saved + credited + left - replacements[year] - upkeep;
    rows.push({
      year,
      capital: 0,
      replacements: replacements[year],
      upkeep,
      avoided: saved,
      credits: credited,
      residual: left,
      net,
      cumulative: rows[year - 1].cumulative + net,
    });
  }
  return rows;
}

/** What a stream avoids in a year, from 1. */
export function amountIn(year: number, stream: AvoidedStream): number {
  const change = stream.changeByYear?.[year - 1] ?? 0;
  const factor = stream.yearFactors?.[year - 1] ?? (1 + stream.growth) ** (year - 1);
  return (stream.amount_per_year + change) * factor;
}
