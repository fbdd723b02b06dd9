import { ModelError } from "../errors.ts";
import { levelisationFactor, presentWorth } from "./annuity.ts";

/** How a price goes through the years: factors of the first ones if given, then a rise. */
export interface PriceCourse {
  /** Real, 1/a. */
  readonly escalation_per_year: number;
  /** Price of a year per price of the first; the years after the last rise from it. */
  readonly yearFactors?: readonly number[] | undefined;
}

/** Price of each year of the period per price of the first year; entry 0 is year 1. */
export function priceYears({ escalation_per_year, yearFactors }: PriceCourse, years: number): Float64Array {
  const factors = new Float64Array(years);
  for (let year = 0; year < years; year += 1) {
    const given = yearFactors?.[year];
    if (given !== undefined) factors[year] = given;
    else if (yearFactors === undefined || yearFactors.length === 0)
      factors[year] = (1 + escalation_per_year) ** year;
    else factors[year] = yearFactors.at(-1)! * (1 + escalation_per_year) ** (year + 1 - yearFactors.length);
  }
  return factors;
}

/**
 * The constant price, per price of the first year, that is worth as much over the period as a price on its course:
 * Σ f_t (1 + r)^−t / P/A(r, years). Without factors by year it is the levelisation factor of its rise.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function levelOfCourse(course: PriceCourse, years: number, rate: number): number {
  if (course.yearFactors === undefined || course.yearFactors.length === 0)
    return levelisationFactor(years, course.escalation_per_year, rate);
  if (!(rate > -1)) throw new ModelError("OUT_OF_RANGE", `a rate of ${rate}`);
  let worth = 0;
  priceYears(course, years).forEach((factor, year) => {
    worth += factor * (1 + rate) ** -(year + 1);
  });
  return worth / presentWorth(rate, years);
}
