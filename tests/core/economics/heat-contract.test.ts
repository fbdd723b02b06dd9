import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { capitalRecovery } from "../../../src/core/economics/annuity.ts";
import { type ContractInput, heatContract } from "../../../src/core/economics/heat-contract.ts";
import type { Loan, Tax } from "../../../src/core/study/schema/study.ts";
import { expectClose } from "../../support/close.ts";

const list = (years: number, value: number) => new Array<number>(years).fill(value);

function input(more: Partial<ContractInput> = {}, years = 20): ContractInput {
  return {
    seller: {
      capital: 100_000,
      land: 0,
      operating: list(years, -1500),
      replacements: list(years, 0),
      credits: list(years, 0),
      residual: 0,
    },
    terms: { inflation: 0, tax: null, loan: null },
    wantedReturn: 0.08,
    sellerShare: 0,
    heat_kWh: list(years, 500_000),
    index: list(years, 1),
    clientSaves: list(years, 20_000),
    clientRate: 0.05,
    ...more,
  };
}

const tax: Tax = {
  rate: 0.3,
  depreciation: "straight-line",
  depreciation_years: 10,
  losses: "carried-forward",
};
const loan: Loan = { share: 0.6, interest_per_year: 0.045, years: 12, repayment: "annuity" };

describe("heatContract(input)", () => {
  // Closed form: (capital · CRF + running cost) / heat, the levelised cost at the wanted return.
  it("asks the levelised cost of heat at the wanted return, where heat and price do not change", () => {
    const figures = heatContract(input());
    expectClose(figures.lowest_per_kWh!, (100_000 * capitalRecovery(0.08, 20) + 1500) / 500_000, 1e-12);
    expectClose(figures.highest_per_kWh!, 20_000 / 500_000, 1e-12);
    expect(figures.price_per_kWh).toBe(figures.lowest_per_kWh);
    expectClose(figures.clientSavesOverPeriod, 20 * (20_000 - 500_000 * figures.price_per_kWh!), 1e-9);
  });

  const share = fc.integer({ min: 0, max: 100 }).map((n) => n / 100);
  const any = fc.record({
    wantedReturn: fc.integer({ min: 0, max: 25 }).map((n) => n / 100),
    inflation: fc.integer({ min: 0, max: 10 }).map((n) => n / 100),
    tax: fc.constantFrom(null, tax, { ...tax, losses: "used-at-once" as const }),
    loan: fc.option(share.map((part) => ({ ...loan, share: 0.9 * part }))),
    rise: fc.integer({ min: -3, max: 6 }).map((n) => n / 100),
    film: fc.integer({ min: 0, max: 8000 }),
  });

  it("reproduces the wanted return to 1e-9 with any tax, loan, index, inflation and film changes", () => {
    fc.assert(
      fc.property(any, ({ wantedReturn, inflation, tax: t, loan: l, rise, film }) => {
        const base = input();
        const figures = heatContract(
          input({
            wantedReturn,
            terms: { inflation, tax: t, loan: l },
            index: list(20, 1).map((_, year) => (1 + rise) ** year),
            seller: {
              ...base.seller,
              replacements: list(20, 0).map((_, year) => (year % 2 === 1 ? film : 0)),
            },
            clientSaves: list(20, 1e6),
          }),
        );
        expect(Math.abs(figures.sellerNpv)).toBeLessThan(1e-6);
        if (figures.sellerReturn !== null)
          expect(Math.abs(figures.sellerReturn - wantedReturn)).toBeLessThan(1e-9);
        else expect(figures.remarks.join(" ")).toMatch(/seller's return/);
      }),
    );
  });

  it("leaves the client nothing at the highest price, and shares what lies between in the chosen proportion", () => {
    fc.assert(
      fc.property(share, (part) => {
        const none = heatContract(input({ sellerShare: 0 }));
        const all = heatContract(input({ sellerShare: 1 }));
        const some = heatContract(input({ sellerShare: part }));
        expect(Math.abs(all.clientNpv)).toBeLessThan(1e-6);
        expectClose(some.clientNpv, (1 - part) * none.clientNpv, 1e-9);
      }),
    );
  });

  it("adds up: what both sides get is what the plant earns, in every year, without tax and loan", () => {
    const figures = heatContract(input({ sellerShare: 0.4 }));
    for (const { year, seller, client } of figures.years)
      expectClose(seller + client, year === 0 ? -100_000 : 20_000 - 1500, 1e-9);
  });

  it("says where no price suits both sides, and where there is no heat to sell", () => {
    const dear = heatContract(input({ clientSaves: list(20, 5000), sellerShare: 0.5 }));
    expect(dear.price_per_kWh).toBe(dear.lowest_per_kWh);
    expect(dear.remarks.join(" ")).toMatch(/No price suits both sides/);
    const none = heatContract(input({ heat_kWh: list(20, 0) }));
    expect(none).toMatchObject({
      price_per_kWh: null,
      years: [],
      remarks: [expect.stringMatching(/sells no solar heat/)],
    });
    expect(JSON.stringify([dear, none])).not.toContain("NaN");
  });
});
