import { ModelError } from "../errors.ts";
import { levelisationFactor } from "./annuity.ts";
import { annualCostOf, type PartQuantity } from "./part-cost.ts";

/**
 * Levelised cost of solar heat, currency/kWh: annual cost of collectors, stores and solar piping,
 * and of the electricity that they need, over the solar heat that was used (not only collected).
 * Chillers and step-downs do not count. Null where no solar heat is used.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function levelisedSolarHeat(input: {
  readonly parts: readonly PartQuantity[];
  /** Levelised, currency per year. */
  readonly parasitics_per_year: number;
  readonly solarUsed_kWh: number;
  readonly rate: number;
}): number | null {
  const { parts, parasitics_per_year, solarUsed_kWh, rate } = input;
  if (!(solarUsed_kWh > 0)) return null;
  const cost = (annualCostOf(parts, rate) + parasitics_per_year) / solarUsed_kWh;
  return Number.isFinite(cost) ? cost : null;
}

/**
 * Levelised cost of heat from yearly flows, currency/kWh:
 * [I0 + Σ C_t (1 + r)^−t − RV (1 + r)^−T] / Σ E_t (1 + r)^−t, costs and heat at year end.
 * Form of IEA SHC Task 54 (Louvet et al., Solar Energy 193 (2019) 85), before taxes and subsidies.
 * Null where no heat flows.
 *
 * @throws ModelError SERIES_LENGTH
 */
export function levelisedHeatOfFlows(input: {
  readonly initialCapital: number;
  /** Entry 0 is year 1. */
  readonly cost_per_year: readonly number[];
  /** As many entries as costs. */
  readonly heat_kWh: readonly number[];
  readonly residual: number;
  readonly rate: number;
}): number | null {
  const { initialCapital, cost_per_year, heat_kWh, residual, rate } = input;
  const years = cost_per_year.length;
  if (heat_kWh.length !== years)
    throw new ModelError("SERIES_LENGTH", `${years} and ${heat_kWh.length} years`);
  let cost = initialCapital - residual * (1 + rate) ** -years;
  let heat = 0;
  for (let year = 1; year <= years; year++) {
    const worth = (1 + rate) ** -year;
    cost += cost_per_year[year - 1] * worth;
    heat += heat_kWh[year - 1] * worth;
  }
  return heat > 0 ? cost / heat : null;
}

/**
 * The constant price that is worth as much over the period as one that grows from `firstYear`.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function levelisedPrice(firstYear: number, growth: number, rate: number, years: number): number {
  return firstYear * levelisationFactor(years, growth, rate);
}
