import type { MoneyFigures } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { missingFigure, withDecimals } from "./numbers.ts";
import { bareMoney, money, percent, type Writing } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

export interface FinanceView {
  readonly sentence: string;
  readonly figures: TableView;
  readonly years: TableView;
  readonly remarks: readonly string[];
}

/** The owner's money after tax and loan, in money of the day; null where the study names neither, nor inflation. */
export function financeView(study: Study, { finance }: Pick<MoneyFigures, "finance">): FinanceView | null {
  if (finance === undefined || finance === null) return null;
  const w = writingOf(study);
  const { wholePlant, ownMoneyWorth, debtCover } = finance;
  const own = ownMoneyWorth === null ? [] : [ownMoneyWorth];
  const columns = ["", "Whole plant", ...own.map(() => "Owner’s own money")];
  return {
    sentence: sentence(study, w),
    figures: figuresTable("The owner’s money, in money of the day", columns, [
      [
        "Paid at the start",
        money(finance.ownMoney + finance.loan, w),
        ...own.map(() => money(finance.ownMoney, w)),
      ],
      [
        `Net present value at ${percent(finance.discountRate, w)}`,
        ...[wholePlant, ...own].map(({ npv }) => money(npv, w)),
      ],
      ["Internal rate of return", ...[wholePlant, ...own].map(({ irr }) => percent(irr, w))],
      ["Internal rate of return, real", ...[wholePlant, ...own].map(({ irrReal }) => percent(irrReal, w))],
      ...(finance.taxRate === null
        ? []
        : [["Tax over the period", money(finance.taxOverPeriod, w), ...own.map(() => "")]]),
      ...(debtCover === null
        ? []
        : [
            [
              `Loan cover, least (year ${debtCover.leastYear}) and mean`,
              "",
              `${cover(debtCover.least, w)}, ${cover(debtCover.mean, w)}`,
            ],
          ]),
    ]),
    years: yearsTable(finance.years, w, finance.taxRate !== null, finance.loan > 0),
    remarks: finance.remarks,
  };
}

const cover = (value: number, { locale }: Writing) =>
  Number.isFinite(value) ? withDecimals(value, 2, locale) : missingFigure;

function sentence({ money: { tax, loan, inflation_per_year } }: Study, w: Writing): string {
  const depreciation = {
    "straight-line": `written off in equal shares over ${tax?.depreciation_years ?? 0} years`,
    "declining-balance": `written off by ${percent(tax?.decliningRate ?? 0, w)} of what is left, over ${tax?.depreciation_years ?? 0} years`,
    "by-year": "written off by listed shares",
  };
  const parts = [
    inflation_per_year === undefined
      ? "no inflation is given"
      : `inflation is ${percent(inflation_per_year, w)} a year`,
    tax === undefined
      ? "before tax"
      : `tax takes ${percent(tax.rate, w)} of the profit, the plant is ${depreciation[tax.depreciation]}, replacements are expensed, and a loss is ${
          tax.losses === "used-at-once" ? "used at once against other profit" : "carried forward"
        }`,
    loan === undefined
      ? "without a loan"
      : `a loan pays ${percent(loan.share, w)} of the capital at ${percent(loan.interest_per_year, w)}, repaid over ${loan.years} years ${
          loan.repayment === "annuity" ? "by equal payments" : "in equal parts"
        }${loan.interestOnly_years ? ` after ${loan.interestOnly_years} of interest only` : ""}`,
  ];
  return `Money of the day: ${parts.join("; ")}. Sizes are those of least cost before tax and loan.`;
}

function yearsTable(
  years: NonNullable<MoneyFigures["finance"]>["years"],
  { locale, currency }: Writing,
  taxed: boolean,
  lent: boolean,
): TableView {
  type Row = (typeof years)[number];
  const columns: readonly (readonly [string, (row: Row) => number])[] = [
    ["Earned less upkeep", (row) => row.operating],
    ["Replacements", (row) => -row.replacements],
    ...(years.some(({ credits }) => credits !== 0) ? [["Credits", (row: Row) => row.credits] as const] : []),
    ["Value left", (row) => row.residual],
    ...(taxed
      ? [
          ["Written off", (row: Row) => row.depreciation] as const,
          ["Taxed", (row: Row) => row.taxable] as const,
          ["Tax", (row: Row) => -row.tax] as const,
        ]
      : []),
    ...(lent
      ? [
          ["Interest", (row: Row) => -row.interest] as const,
          ["Repaid", (row: Row) => -row.repayment] as const,
          ["Owed", (row: Row) => row.owed] as const,
        ]
      : []),
    ["To the owner", (row) => row.equity],
  ];
  return figuresTable(
    `The owner’s years, ${currency} of the day`,
    ["Year", ...columns.map(([title]) => title)],
    years.map((row) => [String(row.year), ...columns.map(([, of]) => bareMoney(of(row), locale))]),
  );
}
