import { npv } from "financial";
import type { CashFlowYear, FlowFigures, MoneyFigures } from "../study/result.ts";
import { internalRate } from "./internal-rate.ts";
import { discountedPayback, simplePayback } from "./payback.ts";

/** A figure, or null and a sentence that says why there is none. */
export interface Figure {
  readonly value: number | null;
  /** Empty where there is nothing to say. */
  readonly remark: string;
}

/**
 * What a cash flow (of cashFlow()) comes to at a real discount rate. Never NaN.
 *
 * @param usualYear_avoided what a year avoids at first-year prices and the film's mean state, for the simple pay-back
 */
export function moneyFigures(
  flow: readonly CashFlowYear[],
  rate: number,
  usualYear_avoided = flow[1].avoided,
): FlowFigures & Pick<MoneyFigures, "cashFlow"> {
  const simple = simplePayback(flow, usualYear_avoided);
  const discounted = discountedPayback(flow, rate);
  const irr = internalRate(flow.map(({ net }) => net));
  const remarks = [simple, discounted, irr].map(({ remark }) => remark).filter((remark) => remark !== "");
  return {
    initialCapital: flow[0].capital,
    simplePayback_years: simple.value,
    discountedPayback_years: discounted.value,
    npv: netPresentValue(flow, rate),
    irr: irr.value,
    remarks: [...new Set(remarks)],
    cashFlow: flow,
  };
}

/** Net present value at time 0: the purchase counts in full, the end of year t by (1 + rate)^−t. */
export function netPresentValue(flow: readonly CashFlowYear[], rate: number): number {
  return npv(
    rate,
    flow.map(({ net }) => net),
  );
}
