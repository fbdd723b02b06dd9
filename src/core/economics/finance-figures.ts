import { npv } from "financial";
import { internalRate } from "./internal-rate.ts";
import {
  nominalRate,
  type OwnerFlow,
  type OwnerTerms,
  type OwnerYear,
  ownerYears,
  realRate,
} from "./owner-flow.ts";

/** What a series of yearly flows in money of the day comes to. */
export interface Worth {
  /** At the study's rate in money of the day; the same as the real flows at the real rate. */
  readonly npv: number;
  /** In money of the day; null where there is none, or not one only. */
  readonly irr: number | null;
  readonly irrReal: number | null;
}

export interface FinanceFigures {
  readonly inflation: number;
  /** The study's rate in money of the day. */
  readonly discountRate: number;
  readonly taxRate: number | null;
  /** At the start; 0 without a loan. */
  readonly loan: number;
  /** Of the owner's own at the start. */
  readonly ownMoney: number;
  /** After tax, as if the owner paid all of it. */
  readonly wholePlant: Worth;
  /** After tax, interest and repayment; null without a loan. */
  readonly ownMoneyWorth: Worth | null;
  /** Least and mean over the loan's years of (what is earned after tax before the loan) / (interest + repayment). */
  readonly debtCover: { readonly least: number; readonly leastYear: number; readonly mean: number } | null;
  readonly taxOverPeriod: number;
  readonly years: readonly OwnerYear[];
  readonly remarks: readonly string[];
}

/** The owner's view in money of the day: after tax, and with the loan. Never NaN. */
export function financeFigures(flow: OwnerFlow, terms: OwnerTerms, realDiscountRate: number): FinanceFigures {
  const { inflation, tax, loan } = terms;
  const discountRate = nominalRate(realDiscountRate, inflation);
  const years = ownerYears(flow, terms);
  const remarks: string[] = [];
  const worth = (rows: readonly OwnerYear[], who: string): Worth => {
    const flows = rows.map(({ equity }) => equity);
    const { value, remark } = internalRate(flows);
    if (remark !== "") remarks.push(`${who}: ${remark}`);
    return {
      npv: npv(discountRate, flows),
      irr: value,
      irrReal: value === null ? null : realRate(value, inflation),
    };
  };
  const principal = (loan?.share ?? 0) * flow.capital;
  return {
    inflation,
    discountRate,
    taxRate: tax?.rate ?? null,
    loan: principal,
    ownMoney: flow.capital - principal,
    wholePlant: worth(ownerYears(flow, { ...terms, loan: null }), "The whole plant"),
    ownMoneyWorth: principal > 0 ? worth(years, "The owner's own money") : null,
    debtCover: principal > 0 ? debtCover(years) : null,
    taxOverPeriod: years.reduce((all, year) => all + year.tax, 0),
    years,
    remarks,
  };
}

function debtCover(years: readonly OwnerYear[]): FinanceFigures["debtCover"] {
  const covers = years.flatMap(({ year, interest, repayment, beforeLoan, residual }) =>
    interest + repayment > 0 ? [{ year, cover: (beforeLoan - residual) / (interest + repayment) }] : [],
  );
  if (covers.length === 0) return null;
  const least = covers.reduce((low, one) => (one.cover < low.cover ? one : low));
  return {
    least: least.cover,
    leastYear: least.year,
    mean: covers.reduce((all, { cover }) => all + cover, 0) / covers.length,
  };
}
