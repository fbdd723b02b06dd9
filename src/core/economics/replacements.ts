import { ModelError } from "../errors.ts";
import { capitalRecovery, presentWorth } from "./annuity.ts";

/** What a part costs again after it was first bought, per 1 of its price. */
export interface Renewal {
  /** Paid at the end of each year; entry 0 is the end of year 1. As many entries as years. */
  readonly replacements: Float64Array;
  /** Worth, at the end of the last year, of the life that is left. */
  readonly residual: number;
}

/**
 * Replacements and residual of a part with price 1 over a whole number of years.
 *
 * The part is bought at 0, L, 2L, … (L its life) as long as that lies before the period's end. What
 * falls within a year is paid at that year's end, with interest for the part of the year in
 * between; a whole life needs none. The residual is the unexpired annuity, CRF(rate, L) · P/A(rate,
 * years left). So price + replacements − residual are worth exactly CRF(rate, L) · P/A(rate, years)
 * today, whatever the life (docs/methods/economics.md, "Replacements").
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function renewal(life_years: number, years: number, rate: number): Renewal {
  if (!Number.isInteger(years) || years < 1) throw new ModelError("OUT_OF_RANGE", `${years} years`);
  if (!(life_years > 0)) throw new ModelError("OUT_OF_RANGE", `a life of ${life_years} years`);
  const replacements = new Float64Array(years);
  // Land is never bought again and keeps its price.
  if (life_years === Number.POSITIVE_INFINITY) return { replacements, residual: 1 };
  const logGrowth_per_life = life_years * Math.log1p(rate);
  let bought = 0;
  for (let year = 1; year <= years; year++) {
    const due = year < years ? lastDueBy(year, life_years) : lastDueBefore(years, life_years);
    const sinceLast_years = Math.max(0, year - due * life_years);
    // A geometric sum, for a life far below a year falls due many times in one.
    replacements[year - 1] = (1 + rate) ** sinceLast_years * geometricSum(logGrowth_per_life, due - bought);
    bought = due;
  }
  const left_years = Math.max(0, (bought + 1) * life_years - years);
  return { replacements, residual: capitalRecovery(rate, life_years) * presentWorth(rate, left_years) };
}

/** How many whole lives have ended by the end of a year. */
function lastDueBy(year: number, life_years: number): number {
  const lives = year / life_years;
  const nearest = Math.round(lives);
  return isWhole(lives) ? nearest : Math.floor(lives);
}

/** As `lastDueBy`, but a life that ends with the period is not followed by another. */
function lastDueBefore(years: number, life_years: number): number {
  const lives = years / life_years;
  return isWhole(lives) ? Math.round(lives) - 1 : Math.floor(lives);
}

/** Whether a quotient is a whole number but for rounding: 0.3/0.1 is. */
function isWhole(lives: number): boolean {
  return lives >= 0.5 && Math.abs(lives - Math.round(lives)) <= 1e-12 * lives;
}

/** Σ e^(exponent·m) for m = 0 … terms − 1. */
function geometricSum(exponent: number, terms: number): number {
  if (terms <= 0) return 0;
  return exponent === 0 ? terms : Math.expm1(exponent * terms) / Math.expm1(exponent);
}
