import { ModelError } from "../errors.ts";
import { capitalRecovery } from "./annuity.ts";

export interface LoanTerms {
  /** Paid each period on what is owed, as a share; 0 or more. */
  readonly interest: number;
  /** Whole periods, at least 1, those of interest only among them. */
  readonly periods: number;
  readonly repayment: "annuity" | "equal-principal";
  /** Fewer than `periods`. */
  readonly interestOnly: number;
}

/** Entry 0 is the end of the first period. */
export interface LoanSchedule {
  readonly interest: Float64Array;
  readonly repayment: Float64Array;
  /** Owed after the period's payment; the last is 0 but for rounding. */
  readonly balance: Float64Array;
}

/**
 * What a loan costs and what is owed, period by period, paid at each period's end: equal payments of principal ·
 * CRF(interest, periods left), or equal repayment. Closed forms of any engineering-economy text.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function loanSchedule(principal: number, terms: LoanTerms): LoanSchedule {
  const { interest: rate, periods, repayment: how, interestOnly } = terms;
  if (!(Number.isInteger(periods) && periods >= 1 && interestOnly >= 0 && interestOnly < periods))
    throw new ModelError("OUT_OF_RANGE", `${periods} periods, ${interestOnly} of them interest only`);
  const interest = new Float64Array(periods);
  const repayment = new Float64Array(periods);
  const balance = new Float64Array(periods);
  const repaid = periods - interestOnly;
  const payment = principal * capitalRecovery(rate, repaid);
  let owed = principal;
  for (let t = 0; t < periods; t += 1) {
    interest[t] = owed * rate;
    if (t >= interestOnly) repayment[t] = how === "annuity" ? payment - interest[t] : principal / repaid;
    // The last payment leaves nothing, not even rounding.
    owed = t === periods - 1 ? 0 : owed - repayment[t];
    balance[t] = owed;
  }
  return { interest, repayment, balance };
}
