import type { CashFlowYear } from "../study/result.ts";
import type { Figure } from "./figures.ts";

const nothingBought = "There is no pay-back time: nothing new is bought.";

/**
 * Initial capital / first-year net saving, years. Net is what the first year avoids, at the film's mean state, less upkeep and
 * less the mean yearly replacements over the period, so that a film changed every other year counts
 * in every year. The residual and price rises do not count.
 */
export function simplePayback(flow: readonly CashFlowYear[], usualYear_avoided = flow[1].avoided): Figure {
  const capital = flow[0].capital;
  if (!(capital > 0)) return { value: null, remark: nothingBought };
  const years = flow.length - 1;
  const replaced = flow.reduce((sum, { replacements }) => sum + replacements, 0) / years;
  const saving = usualYear_avoided - flow[1].upkeep - replaced;
  const payback_years = capital / saving;
  if (!(saving > 0) || !Number.isFinite(payback_years))
    return {
      value: null,
      remark:
        "There is no simple pay-back time: what the first year avoids does not exceed upkeep and replacements.",
    };
  return { value: payback_years, remark: "" };
}

/**
 * Years after which the discounted savings have repaid the capital and all replacements so far, and
 * stay ahead to the period's end. The residual does not count, for it is no money in hand. Within a
 * year the flow counts as an annuity does, so that constant flows give the closed form exactly.
 */
export function discountedPayback(flow: readonly CashFlowYear[], rate: number): Figure {
  if (!(flow[0].capital > 0)) return { value: null, remark: nothingBought };
  let balance = flow[0].net;
  let payback_years: number | null = null;
  for (let year = 1; year < flow.length; year++) {
    const before = balance;
    const saving = flow[year].net - flow[year].residual;
    const worth = saving * (1 + rate) ** -year;
    balance += worth;
    if (balance < 0) payback_years = null;
    else if (payback_years === null) {
      // Its worth at the year's start, as that year's share of the annuity.
      const within = paybackOfSaving({ capital: -before, saving: worth * (1 + rate), growth: 0, rate });
      payback_years = year - 1 + Math.min(1, within ?? 1);
    }
  }
  if (payback_years !== null) return { value: payback_years, remark: "" };
  return {
    value: null,
    remark: `Discounted savings do not repay the capital and the replacements within ${flow.length - 1} years.`,
  };
}

/**
 * Years n after which a yearly saving repays the capital: capital = saving · PWF(n, growth, rate),
 * solved for n. Gives the text-book forms −ln(1 − I·d/S)/ln(1 + d) for growth 0 and ln(1 + I·i/S)/ln(1
 * + i) for rate 0 (Duffie & Beckman ch. 11.7). Null where the saving never repays it.
 */
export function paybackOfSaving(input: {
  readonly capital: number;
  /** At the end of the first year. */
  readonly saving: number;
  readonly growth: number;
  readonly rate: number;
}): number | null {
  const { capital, saving, growth, rate } = input;
  if (!(capital >= 0 && saving > 0)) return null;
  // A saving that grows is a constant one at the net rate; see presentWorthGrowing().
  const netRate = (rate - growth) / (1 + growth);
  const needed_years = (capital * (1 + growth)) / saving;
  if (Math.abs(netRate) < 1e-14) return needed_years;
  const repaid = needed_years * netRate;
  return repaid < 1 ? -Math.log1p(-repaid) / Math.log1p(netRate) : null;
}
