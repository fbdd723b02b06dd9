import type { Tax } from "../study/schema/study.ts";

/**
 * Share of the first price that is written off at the end of each year; entry 0 is year 1.
 *
 * straight-line: equal shares. declining-balance: a share of what is left each year, the rest in the last.
 * by-year: the shares that are given. What reaches beyond `years` is not in it.
 */
export function depreciationShares(tax: Tax, years: number): Float64Array {
  const shares = new Float64Array(years);
  const { depreciation_years: over = years, decliningRate = 0 } = tax;
  let left = 1;
  for (let t = 0; t < years; t += 1) {
    if (tax.depreciation === "by-year") shares[t] = tax.shares?.[t] ?? 0;
    else if (t >= over) shares[t] = 0;
    else if (tax.depreciation === "straight-line") shares[t] = 1 / over;
    else shares[t] = t === over - 1 ? left : left * decliningRate;
    left -= shares[t];
  }
  return shares;
}
