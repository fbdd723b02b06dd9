import type { Part } from "../study/schema/study.ts";
import { capitalRecovery } from "./annuity.ts";
import { annualCostPerUnit } from "./part-cost.ts";

export interface FilmLifeInput {
  readonly parts: readonly Part[];
  /** The part whose life is tried. */
  readonly film: Part;
  readonly rate: number;
  /** Electricity, currency per m² and year. */
  readonly running_per_m2_year: number;
  readonly life_years: readonly number[];
  /** Useful heat at the film's mean state over each life, kWh/m²·a. */
  readonly useful_kWh_per_m2: readonly number[];
}

/** Cost of useful heat by the film's life, a curve for each price of it. */
export interface FilmLifeCurve {
  readonly filmPrice_per_m2: number;
  readonly cost_per_kWh: readonly number[];
  readonly best: { readonly life_years: number; readonly cost_per_kWh: number };
}

/**
 * Levelised cost of a collector's useful heat for films of other prices kept for other lives:
 * (annual cost of all other parts + price·CRF(rate, life) + upkeep + electricity) / useful heat at that life.
 */
export function filmLifeCosts(input: FilmLifeInput, prices_per_m2: readonly number[]): FilmLifeCurve[] {
  const { life_years, useful_kWh_per_m2 } = input;
  return prices_per_m2.map((filmPrice_per_m2) => {
    const cost_per_kWh = life_years.map(
      (life, i) => annualCost(input, filmPrice_per_m2, life) / useful_kWh_per_m2[i]!,
    );
    const at = cost_per_kWh.indexOf(Math.min(...cost_per_kWh));
    return {
      filmPrice_per_m2,
      cost_per_kWh,
      best: { life_years: life_years[at]!, cost_per_kWh: cost_per_kWh[at]! },
    };
  });
}

/**
 * What a film that is kept for the life at `index` may cost so that heat costs no more than with today's film;
 * ageing as today's. Below 0 where not even a gift would do.
 */
export function breakEvenFilmPrice_per_m2(
  input: FilmLifeInput,
  today_per_kWh: number,
  index: number,
): number {
  const life = input.life_years[index]!;
  const allowed = today_per_kWh * input.useful_kWh_per_m2[index]!;
  return (allowed - annualCost(input, 0, life)) / capitalRecovery(input.rate, life);
}

function annualCost(
  { parts, film, rate, running_per_m2_year }: FilmLifeInput,
  price: number,
  life_years: number,
) {
  const others = parts.filter((part) => part !== film);
  return (
    annualCostPerUnit([...others, { ...film, price_per_unit: price, life_years }], rate) + running_per_m2_year
  );
}
