import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { depreciationShares } from "../../../src/core/economics/depreciation.ts";
import { financeFigures } from "../../../src/core/economics/finance-figures.ts";
import { nominalRate, ownerYears, realRate } from "../../../src/core/economics/owner-flow.ts";
import type { Tax } from "../../../src/core/study/schema/study.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const tax = (more: Partial<Tax> = {}): Tax => ({
  rate: 0.4,
  depreciation: "straight-line",
  depreciation_years: 5,
  losses: "used-at-once",
  ...more,
});
const noTerms = { inflation: 0, tax: null, loan: null };
const flow = (capital: number, operating: number[], more: object = {}) => ({
  capital,
  land: 0,
  operating,
  replacements: operating.map(() => 0),
  credits: operating.map(() => 0),
  residual: 0,
  ...more,
});

describe("depreciationShares(tax, years)", () => {
  // Spreadsheet function documentation: SLN of 30 000 to 7500 over 10 years is 2250 a year.
  it("by straight line is the printed amount", () => {
    const shares = depreciationShares(tax({ depreciation_years: 10 }), 20);
    expectPrinted((30_000 - 7500) * shares[0]!, "2250");
    expectClose(
      shares.reduce((all, one) => all + one, 0),
      1,
      1e-12,
    );
    expect(shares[10]).toBe(0);
  });

  // Spreadsheet function documentation: DDB of 2400 over 10 years is 480.00 in year 1; by a factor of 1.5, 306.00 in year 2.
  it("by declining balance is the printed amount, and the rest goes in the last year", () => {
    const double = depreciationShares(
      tax({ depreciation: "declining-balance", decliningRate: 0.2, depreciation_years: 10 }),
      10,
    );
    expectPrinted(2400 * double[0]!, "480.00");
    const slower = depreciationShares(
      tax({ depreciation: "declining-balance", decliningRate: 0.15, depreciation_years: 10 }),
      10,
    );
    expectPrinted(2400 * slower[1]!, "306.00");
    expectClose(slower[9]!, 0.85 ** 9, 1e-12);
  });

  // IRS Publication 946, table A-1, 5-year property, half-year convention (from memory).
  it("by year is what is listed, and what reaches beyond the period is left out", () => {
    const shares = [0.2, 0.32, 0.192, 0.1152, 0.1152, 0.0576];
    expect([...depreciationShares(tax({ depreciation: "by-year", shares }), 8)]).toEqual([...shares, 0, 0]);
    expect([...depreciationShares(tax({ depreciation: "by-year", shares }), 2)]).toEqual([0.2, 0.32]);
  });
});

describe("ownerYears(flow, terms)", () => {
  // By hand: 1000 at the start, 400 a year, written off in 5 years, 40 %: tax (400 − 200)·0.4 = 80 a year.
  it("taxes what is left after writing off", () => {
    const years = ownerYears(flow(1000, [400, 400, 400, 400, 400]), { ...noTerms, tax: tax() });
    expect(years.slice(1).map((year) => year.tax)).toEqual([80, 80, 80, 80, 80]);
    expect(years.map(({ equity }) => equity)).toEqual([-1000, 320, 320, 320, 320, 320]);
  });

  // By hand: half by a loan at 10 % over 2 years, equal repayment: interest 50 and 25 saves 20 and 10 of tax.
  it("takes interest off the profit and the loan off the owner's own money", () => {
    const years = ownerYears(flow(1000, [400, 400, 400, 400, 400]), {
      inflation: 0,
      tax: tax(),
      loan: { share: 0.5, interest_per_year: 0.1, years: 2, repayment: "equal-principal" },
    });
    expect(years.map(({ equity }) => Math.round(equity))).toEqual([-500, 40, 55, 320, 320, 320]);
    expect(years.map(({ owed }) => owed)).toEqual([500, 250, 0, 0, 0, 0]);
  });

  // By hand: a loss of 100 in year 1 saves 40 at once, or 40 in year 2 when carried forward.
  it("uses a loss at once or carries it forward", () => {
    const one = flow(1000, [100, 400, 400, 400, 400]);
    const atOnce = ownerYears(one, { ...noTerms, tax: tax() });
    const later = ownerYears(one, { ...noTerms, tax: tax({ losses: "carried-forward" }) });
    expect(atOnce.slice(1, 3).map((year) => year.tax)).toEqual([-40, 80]);
    expect(later.slice(1, 3).map((year) => year.tax)).toEqual([0, 40]);
  });

  it("writes off at the end what is left, and taxes the worth that is left", () => {
    const years = ownerYears(flow(1000, [0, 0], { residual: 700, land: 100 }), {
      ...noTerms,
      tax: tax({ depreciation_years: 9 }),
    });
    // 900 depreciable, 200 written off, 700 on the books and land at 100: 700 − 700 − 100 = −100 beside depreciation.
    expect(years[2]!.taxable).toBeCloseTo(-100 - 100, 9);
    const all = years.reduce((sum, year) => sum + year.taxable, 0);
    expectClose(all, 700 - 1000, 1e-12);
  });

  const money = fc.integer({ min: -500, max: 2000 });
  const anyFlow = fc
    .record({
      capital: fc.integer({ min: 1, max: 5000 }),
      years: fc.array(money, { minLength: 1, maxLength: 30 }),
      residual: fc.nat(500),
    })
    .map(({ capital, years, residual }) => flow(capital, years, { residual }));

  it("taxes over the period just the profit of the period, whatever the depreciation and the loan", () => {
    fc.assert(
      fc.property(
        anyFlow,
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 0, max: 100 }),
        (one, over, percent) => {
          const years = one.operating.length;
          const rows = ownerYears(one, {
            inflation: 0,
            tax: tax({ depreciation_years: over }),
            loan: {
              share: percent / 100,
              interest_per_year: 0.06,
              years: Math.min(7, years),
              repayment: "annuity",
            },
          });
          const interest = rows.reduce((all, row) => all + row.interest, 0);
          const profit =
            one.operating.reduce((all, value) => all + value, 0) + one.residual - one.capital - interest;
          const taxed = rows.reduce((all, row) => all + row.taxable, 0);
          expect(Math.abs(taxed - profit)).toBeLessThan(1e-8 * (1 + Math.abs(profit) + one.capital));
        },
      ),
    );
  });

  it("is worth as much in money of the day at the rate of the day as real money at the real rate", () => {
    fc.assert(
      fc.property(
        anyFlow,
        fc.integer({ min: -2, max: 20 }),
        fc.integer({ min: 0, max: 20 }),
        (one, inflation, rate) => {
          const worth = (percent: number) =>
            financeFigures(one, { ...noTerms, inflation: percent / 100 }, rate / 100).wholePlant.npv;
          expect(Math.abs(worth(inflation) - worth(0))).toBeLessThan(
            1e-8 * (1 + one.capital + 2000 * one.operating.length),
          );
        },
      ),
    );
  });
});

it("a loan at the rate of the day leaves the worth of the plant as it is, without tax", () => {
  const one = flow(1000, [300, 300, 300, 300, 300]);
  const inflation = 0.03;
  const loan = {
    share: 0.7,
    interest_per_year: nominalRate(0.05, inflation),
    years: 4,
    repayment: "annuity" as const,
  };
  const figures = financeFigures(one, { inflation, tax: null, loan }, 0.05);
  expectClose(figures.ownMoneyWorth!.npv, figures.wholePlant.npv, 1e-9);
  expect(figures.ownMoneyWorth!.irr!).toBeGreaterThan(figures.wholePlant.irr!);
  expectClose(realRate(nominalRate(0.05, 0.03), 0.03), 0.05, 1e-12);
  expectClose(
    figures.debtCover!.least,
    (300 * 1.03) / (700 * (figures.discountRate / (1 - (1 + figures.discountRate) ** -4))),
    1e-9,
  );
  expect(figures.debtCover!.leastYear).toBe(1);
});

it("says in a sentence why a return is missing, and shows nothing that is not a number", () => {
  const loan = { share: 1, interest_per_year: 0.05, years: 2, repayment: "annuity" as const };
  const figures = financeFigures(flow(1000, [900, 900]), { ...noTerms, loan }, 0.05);
  expect(figures.ownMoneyWorth!.irr).toBeNull();
  expect(figures.remarks.join(" ")).toMatch(/owner's own money: There is no internal rate of return/);
  expect(JSON.stringify(figures)).not.toContain("NaN");
});
