import fc from "fast-check";
import { irr, npv } from "financial";
import { describe, expect, it } from "vitest";
import { cashFlow } from "../../../src/core/economics/cash-flow.ts";
import { moneyFigures } from "../../../src/core/economics/figures.ts";
import { internalRate } from "../../../src/core/economics/internal-rate.ts";
import { discountedPayback, paybackOfSaving, simplePayback } from "../../../src/core/economics/payback.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const plant = (price: number, life_years: number) => ({
  quantity: 1,
  part: { name: "plant", price_per_unit: price, life_years, upkeep_per_unit_year: 0 },
});
const simpleCase = (price: number, saving: number, years = 25, rate = 0.08, life = 100) =>
  cashFlow({ bought: [plant(price, life)], years, rate, avoided: [{ amount_per_year: saving, growth: 0 }] });

describe("internalRate(flows)", () => {
  // Spreadsheet function documentation.
  it.each([
    [[-70000, 12000, 15000, 18000, 21000, 26000], "0.0866309480"],
    [[-70000, 12000, 15000, 18000, 21000], "-0.021"],
    [[-70000, 12000, 15000], "-0.444"],
    // Numerical library documentation, from memory.
    [[-100, 39, 59, 55, 20], "0.28095"],
  ])("of %j is the printed one", (flows, printed) => {
    expectPrinted(internalRate(flows).value as number, printed);
  });

  it("finds the one rate of money first out, then in, at any scale", () => {
    const flows = fc.tuple(
      fc.double({ min: 1, max: 1e7, noNaN: true }),
      fc.array(fc.double({ min: 0.01, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 60 }),
    );
    fc.assert(
      fc.property(flows, ([capital, income]) => {
        const all = [-capital, ...income];
        const total = income.reduce((sum, value) => sum + value, 0);
        fc.pre(total > 0.05 * capital && total < 20 * capital && Math.max(...income) < 5 * capital);
        const { value } = internalRate(all);
        expect(value).not.toBeNull();
        const scale = all.reduce(
          (sum, flow, year) => sum + Math.abs(flow) * (1 + (value as number)) ** -year,
          0,
        );
        expect(Math.abs(npv(value as number, all))).toBeLessThanOrEqual(1e-7 * scale);
        const library = irr(all, value as number);
        if (Number.isFinite(library)) expectClose(value as number, library, 1e-5);
      }),
    );
  });

  it("finds the one rate above 0 although film changes cost more than their year saves", () => {
    const bought = [plant(100, 25), plant(60, 4)];
    const flow = cashFlow({ bought, years: 25, rate: 0.05, avoided: [{ amount_per_year: 50, growth: 0 }] });
    expect(flow[4].net).toBeLessThan(0);
    const { value } = internalRate(flow.map(({ net }) => net));
    expect(value).toBeGreaterThan(0.05);
    expectClose(
      npv(
        value as number,
        flow.map(({ net }) => net),
      ),
      0,
      1e-6,
    );
  });

  it("says why there is none where money flows one way, or more than one rate may fit", () => {
    expect(internalRate([-5, -1])).toEqual({ value: null, remark: expect.stringContaining("one way only") });
    expect(internalRate([0, 0, 3]).value).toBeNull();
    // −1 + 2.3/(1+r) − 1.32/(1+r)² is 0 at 10 % and at 20 %: text-book example.
    expect(internalRate([-100, 230, -132])).toEqual({
      value: null,
      remark: expect.stringContaining("2 times"),
    });
  });
});

describe("pay-back", () => {
  // Text-book closed form −ln(1 − I·d/S)/ln(1 + d).
  it("of constant savings is the closed form, simple and discounted", () => {
    const flow = simpleCase(10_000, 1500);
    expectPrinted(simplePayback(flow).value as number, "6.667");
    expectPrinted(discountedPayback(flow, 0.08).value as number, "9.903");
    expectPrinted(
      paybackOfSaving({ capital: 10_000, saving: 1500, growth: 0, rate: 0.08 }) as number,
      "9.903",
    );
  });

  // Duffie & Beckman ch. 11.7, form ln(1 + I·i/S)/ln(1 + i).
  it("of a growing saving without discount is the closed form", () => {
    expectPrinted(
      paybackOfSaving({ capital: 10_000, saving: 1500, growth: 0.03, rate: 0 }) as number,
      "6.168",
    );
    expect(paybackOfSaving({ capital: 10_000, saving: 1500, growth: 0.03, rate: 0.03 })).toBeCloseTo(
      (1.03 * 10) / 1.5,
      12,
    );
  });

  it("agrees with the closed form for any constant saving", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1000, noNaN: true }),
        fc.double({ min: 1, max: 1000, noNaN: true }),
        fc.double({ min: 0, max: 0.4, noNaN: true }),
        (capital, saving, rate) => {
          const expected = paybackOfSaving({ capital, saving, growth: 0, rate });
          const { value } = discountedPayback(simpleCase(capital, saving, 40, rate), rate);
          if (expected !== null && expected < 39.999) expectClose(value as number, expected, 1e-8);
          else if (expected === null || expected > 40.001) expect(value).toBeNull();
        },
      ),
    );
  });

  it("is null with a sentence where savings never repay: S ≤ I·d", () => {
    const flow = simpleCase(10_000, 800, 60);
    expect(discountedPayback(flow, 0.08)).toEqual({
      value: null,
      remark: expect.stringContaining("within 60 years"),
    });
    expect(paybackOfSaving({ capital: 10_000, saving: 800, growth: 0, rate: 0.08 })).toBeNull();
  });

  it("counts from when the savings stay ahead, after a late replacement", () => {
    const flow = simpleCase(100, 30, 10, 0, 4);
    // Undiscounted balances: −10 after year 3, −80 after year 4, 10 after 7, −60 after 8, 0 after 10.
    expect(discountedPayback(flow, 0).value).toBeCloseTo(10, 9);
  });

  it("spreads film changes over the years in the simple pay-back", () => {
    const flow = cashFlow({
      bought: [plant(50, 100), plant(4, 2)],
      years: 20,
      rate: 0.05,
      avoided: [{ amount_per_year: 10, growth: 0 }],
    });
    expect(simplePayback(flow).value).toBeCloseTo(54 / (10 - (9 * 4) / 20), 12);
  });
});

describe("moneyFigures(flow, rate)", () => {
  it("has no figure that is not a number, whatever the plant", () => {
    const money = fc.oneof(fc.constant(0), fc.double({ min: -1e6, max: 1e6, noNaN: true }));
    const price = fc.oneof(fc.constant(0), fc.double({ min: 0, max: 1e6, noNaN: true }));
    const growth = fc.double({ min: -0.2, max: 0.3, noNaN: true });
    fc.assert(
      fc.property(
        price,
        money,
        growth,
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        fc.double({ min: 0.1, max: 60, noNaN: true }),
        (capital, amount_per_year, growth, years, rate, life) => {
          const flow = cashFlow({
            bought: [plant(capital, life)],
            years,
            rate,
            avoided: [{ amount_per_year, growth }],
          });
          const figures = moneyFigures(flow, rate);
          expect(Number.isFinite(figures.npv)).toBe(true);
          for (const value of [figures.irr, figures.simplePayback_years, figures.discountedPayback_years]) {
            if (value === null) expect(figures.remarks.length).toBeGreaterThan(0);
            else expect(Number.isFinite(value)).toBe(true);
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  it("has a rate of return equal to the discount rate where the NPV is 0", () => {
    const rate = 0.07;
    const cost = 1000 * (rate / (1 - 1.07 ** -20));
    const figures = moneyFigures(simpleCase(1000, cost, 20, rate, 20), rate);
    expectClose(figures.npv, 0, 1e-9);
    expectClose(figures.irr as number, rate, 1e-9);
  });
});
