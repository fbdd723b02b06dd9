import { ModelError } from "../errors.ts";

/** Below this |rate| the closed forms lose digits to denormal numbers; their limits are exact to 1e-12 there. */
const negligibleRate = 1e-14;

/**
 * Capital recovery factor (A/P): the equal payment at each year's end that repays 1 over `years`.
 *
 * `rate` is real and above −1; `years` is above 0 and need not be whole. At rate 0 it is 1/years.
 * Closed form of any engineering-economy text; docs/methods/economics.md.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function capitalRecovery(rate: number, years: number): number {
  if (!(years > 0)) throw new ModelError("OUT_OF_RANGE", `a life of ${years} years`);
  return 1 / presentWorth(rate, years);
}

/**
 * Present worth (P/A) of 1 at each year's end for `years`: (1 − (1 + rate)^−years)/rate.
 *
 * For years that are not whole the closed form is continued, which is the annuity's own way of
 * dividing a year. `rate` above −1, `years` at least 0; 0 years are worth 0.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function presentWorth(rate: number, years: number): number {
  if (!(rate > -1 && rate < Infinity)) throw new ModelError("OUT_OF_RANGE", `a rate of ${rate}`);
  if (!(years >= 0 && years < Infinity)) throw new ModelError("OUT_OF_RANGE", `${years} years`);
  if (Math.abs(rate) < negligibleRate) return years;
  return -Math.expm1(-years * Math.log1p(rate)) / rate;
}

/**
 * Present worth of flows at year end that grow: 1 after the first year, (1 + growth) after the
 * second, and so on for `years`. Written as P/A at the rate (rate − growth)/(1 + growth), divided by
 * (1 + growth), which equals both branches of Duffie & Beckman eq. 11.5.1–2.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function presentWorthGrowing(years: number, growth: number, rate: number): number {
  if (!(growth > -1 && growth < Infinity)) throw new ModelError("OUT_OF_RANGE", `a growth of ${growth}`);
  if (!(rate > -1)) throw new ModelError("OUT_OF_RANGE", `a rate of ${rate}`);
  return presentWorth((rate - growth) / (1 + growth), years) / (1 + growth);
}

/**
 * The constant yearly amount, per 1 in the first year, that is worth as much over `years` as an
 * amount that grows by `growth` a year: PWF(years, growth, rate) / PWF(years, 0, rate).
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function levelisationFactor(years: number, growth: number, rate: number): number {
  if (!(years > 0)) throw new ModelError("OUT_OF_RANGE", `${years} years`);
  return presentWorthGrowing(years, growth, rate) / presentWorth(rate, years);
}
