import type { Loan, Tax } from "../study/schema/study.ts";
import { depreciationShares } from "./depreciation.ts";
import { loanSchedule } from "./loan-schedule.ts";

/** What the plant's owner pays and earns before tax and loan, real; lists have entry 0 for the end of year 1. */
export interface OwnerFlow {
  /** Paid at the start, less grants paid with the purchase. */
  readonly capital: number;
  /** Of it, land, which is not written off. */
  readonly land: number;
  /** Earned or saved, less upkeep and electricity. */
  readonly operating: ArrayLike<number>;
  readonly replacements: ArrayLike<number>;
  /** Grants and tax credits paid later; no income for tax. */
  readonly credits: ArrayLike<number>;
  /** Worth of the life that is left at the end of the last year. */
  readonly residual: number;
}

export interface OwnerTerms {
  readonly inflation: number;
  readonly tax: Tax | null;
  readonly loan: Loan | null;
}

/** One year of the owner in money of the day; year 0 is the purchase. */
export interface OwnerYear {
  readonly year: number;
  readonly operating: number;
  readonly replacements: number;
  readonly credits: number;
  readonly residual: number;
  readonly depreciation: number;
  readonly interest: number;
  readonly repayment: number;
  /** Owed at the year's end. */
  readonly owed: number;
  /** Profit that is taxed; below 0 a loss. */
  readonly taxable: number;
  /** Below 0 where a loss saves tax elsewhere. */
  readonly tax: number;
  /** After tax, before the loan's payments; tax is lower by the interest all the same. */
  readonly beforeLoan: number;
  /** What the owner's own money gets: after tax, interest and repayment. */
  readonly equity: number;
}

/**
 * The owner's years in money of the day: real amounts times (1 + inflation)^t, less tax and loan.
 *
 * Taxable is operating − replacements (expensed in their year) − depreciation of the first price without land −
 * interest, and in the last year + residual − what is not yet written off (land at its price). A loss saves tax at
 * once, or is carried forward to later profits, as the study says.
 *
 * @returns years + 1 entries
 */
export function ownerYears(flow: OwnerFlow, { inflation, tax, loan }: OwnerTerms): OwnerYear[] {
  const years = flow.operating.length;
  const principal = (loan?.share ?? 0) * flow.capital;
  const schedule =
    loan === null
      ? null
      : loanSchedule(principal, {
          interest: loan.interest_per_year,
          periods: loan.years,
          repayment: loan.repayment,
          interestOnly: loan.interestOnly_years ?? 0,
        });
  const written = tax === null ? new Float64Array(years) : depreciationShares(tax, years);
  const base = flow.capital - flow.land;
  const start = {
    operating: 0,
    replacements: 0,
    credits: 0,
    residual: 0,
    depreciation: 0,
    interest: 0,
    repayment: 0,
    owed: principal,
    taxable: 0,
    tax: 0,
  };
  const rows: OwnerYear[] = [
    { year: 0, ...start, beforeLoan: 0 - flow.capital, equity: principal - flow.capital },
  ];
  let book = base;
  let carried = 0;
  for (let year = 1; year <= years; year += 1) {
    const t = year - 1;
    const ofDay = (1 + inflation) ** year;
    const isLast = year === years;
    const operating = flow.operating[t]! * ofDay;
    const replacements = flow.replacements[t]! * ofDay;
    const credits = flow.credits[t]! * ofDay;
    const residual = isLast ? flow.residual * ofDay : 0;
    const depreciation = base * written[t]!;
    book -= depreciation;
    const interest = schedule?.interest[t] ?? 0;
    const repayment = schedule?.repayment[t] ?? 0;
    const taxable =
      operating - replacements - depreciation - interest + (isLast ? residual - book - flow.land : 0);
    let taxed = taxable;
    if (tax?.losses === "carried-forward") {
      const balance = taxable + carried;
      taxed = Math.max(0, balance);
      carried = Math.min(0, balance);
    }
    const paid = tax === null ? 0 : tax.rate * taxed;
    const beforeLoan = operating - replacements + credits + residual - paid;
    rows.push({
      year,
      operating,
      replacements,
      credits,
      residual,
      depreciation,
      interest,
      repayment,
      owed: schedule?.balance[t] ?? 0,
      taxable,
      tax: paid,
      beforeLoan,
      equity: beforeLoan - interest - repayment,
    });
  }
  return rows;
}

/** Rate in money of the day of a real one (Fisher). */
export function nominalRate(real: number, inflation: number): number {
  return (1 + real) * (1 + inflation) - 1;
}

/** Real rate of one in money of the day. */
export function realRate(nominal: number, inflation: number): number {
  return (1 + nominal) / (1 + inflation) - 1;
}
