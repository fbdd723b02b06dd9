import fc from "fast-check";
import { npv } from "financial";
import { describe, expect, it } from "vitest";
import { presentWorth, presentWorthGrowing } from "../../../src/core/economics/annuity.ts";
import { cashFlow } from "../../../src/core/economics/cash-flow.ts";
import { netPresentValue } from "../../../src/core/economics/figures.ts";
import { annualCostOf } from "../../../src/core/economics/part-cost.ts";
import { renewal } from "../../../src/core/economics/replacements.ts";
import { expectClose } from "../../support/close.ts";

const part = (price_per_unit: number, life_years: number, upkeep_per_unit_year = 0) => ({
  name: "part",
  price_per_unit,
  life_years,
  upkeep_per_unit_year,
});
const life = fc.oneof(
  fc.integer({ min: 1, max: 60 }),
  fc.double({ min: 0.05, max: 100, noNaN: true }),
  fc.integer({ min: 1, max: 40 }).map((tenths) => tenths / 10),
);
const rate = fc.oneof(fc.constant(0), fc.double({ min: 0, max: 0.5, noNaN: true }));

describe("renewal(life, years, rate)", () => {
  it("changes a two-year film at the end of years 2, 4, … but not at the period's end", () => {
    expect([...renewal(2, 6, 0.08).replacements]).toEqual([0, 1, 0, 1, 0, 0]);
    expect(renewal(2, 6, 0.08).residual).toBe(0);
  });

  it("pays for a life of 2.5 years at the end of years 3 and 5, with interest for half a year in year 3", () => {
    const { replacements } = renewal(2.5, 6, 0.08);
    expect([...replacements.slice(0, 2), replacements[3], replacements[5]]).toEqual([0, 0, 0, 0]);
    expectClose(replacements[2], Math.sqrt(1.08), 1e-14);
    expectClose(replacements[4], 1, 1e-14);
  });

  it("credits half the price for half a life left at rate 0", () => {
    expectClose(renewal(20, 10, 0).residual, 0.5, 1e-15);
  });

  it("takes a life that divides the period but for rounding as whole", () => {
    const { replacements, residual } = renewal(0.1, 3, 0);
    expectClose(replacements[2], 9, 0);
    expect(residual).toBe(0);
  });

  it("answers at once for a life far below a year", () => {
    expectClose(renewal(1e-6, 1, 0).replacements[0], 999_999, 1e-9);
  });

  it.each([
    [0, 5],
    [Number.NaN, 5],
    [3, 0],
    [3, 2.5],
  ])("rejects a life of %d over %d years", (life_years, years) => {
    expect(() => renewal(life_years, years, 0.05)).toThrow("OUT_OF_RANGE");
  });
});

describe("cashFlow(input)", () => {
  // The annuity identity: each purchase is worth its annuity over its life, so the sum telescopes.
  it("has an NPV of annual saving · P/A for constant flows and any lives", () => {
    const parts = fc.array(
      fc.record({
        price: fc.double({ min: 0, max: 100, noNaN: true }),
        life,
        upkeep: fc.integer({ min: 0, max: 5 }),
      }),
      { minLength: 1, maxLength: 5 },
    );
    fc.assert(
      fc.property(
        parts,
        fc.integer({ min: 1, max: 60 }),
        rate,
        fc.integer({ min: -50, max: 500 }),
        (list, years, r, saved) => {
          const bought = list.map((p, index) => ({
            part: part(p.price, p.life, p.upkeep),
            quantity: index + 1,
          }));
          const flow = cashFlow({ bought, years, rate: r, avoided: [{ amount_per_year: saved, growth: 0 }] });
          const cost = annualCostOf(bought, r);
          const expected = (saved - cost) * presentWorth(r, years);
          const scale = Math.max(1, (Math.abs(saved) + cost) * presentWorth(r, years));
          expect(Math.abs(netPresentValue(flow, r) - expected)).toBeLessThanOrEqual(1e-9 * scale);
          expect(flow.every((row) => row.replacements >= 0 && row.residual >= 0)).toBe(true);
        },
      ),
      { numRuns: 500 },
    );
  });

  it("lets fuel, electricity and carbon each rise by their own rate", () => {
    const avoided = [
      { amount_per_year: 100, growth: 0.03 },
      { amount_per_year: -20, growth: 0 },
      { amount_per_year: 10, growth: -0.05 },
    ];
    const flow = cashFlow({ bought: [], years: 25, rate: 0.06, avoided });
    const expected = avoided.reduce(
      (sum, { amount_per_year, growth }) => sum + amount_per_year * presentWorthGrowing(25, growth, 0.06),
      0,
    );
    expect(flow[1].avoided).toBe(90);
    expectClose(netPresentValue(flow, 0.06), expected, 1e-12);
  });

  it("follows a yearly factor, as of a film that ages", () => {
    const avoided = [{ amount_per_year: 100, growth: 0, changeByYear: [5, -5, 5] }];
    const flow = cashFlow({ bought: [], years: 3, rate: 0, avoided });
    expect(flow.map((row) => row.avoided)).toEqual([0, 105, 95, 105]);
    expect(() => cashFlow({ bought: [], years: 4, rate: 0, avoided })).toThrow("SERIES_LENGTH");
  });

  it("adds up in every row and over the rows", () => {
    const bought = [
      { part: part(50, 20, 1), quantity: 100 },
      { part: part(3, 2), quantity: 100 },
    ];
    const flow = cashFlow({
      bought,
      years: 25,
      rate: 0.07,
      avoided: [{ amount_per_year: 2000, growth: 0.02 }],
    });
    let sum = 0;
    for (const row of flow) {
      sum += row.net;
      expectClose(row.net, row.avoided + row.residual - row.capital - row.replacements - row.upkeep, 1e-12);
      expectClose(row.cumulative, sum, 1e-12);
    }
    expect(flow.length).toBe(26);
    expect(flow[0].capital).toBe(5300);
    expect(flow[20].replacements).toBe(5300);
    expect(flow[25].replacements).toBe(0);
  });
});

// Spreadsheet function documentation prints 1188.44 (first flow discounted once); time 0 gives 1307.29.
it("counts the purchase at time 0, unlike the spreadsheet convention", () => {
  const flows = [-10000, 3000, 4200, 6800];
  expect(npv(0.1, flows).toFixed(2)).toBe("1307.29");
  expect((npv(0.1, flows) / 1.1).toFixed(2)).toBe("1188.44");
  const rows = flows.map((net, year) => ({
    year,
    capital: 0,
    replacements: 0,
    upkeep: 0,
    avoided: 0,
    residual: 0,
    net,
    cumulative: 0,
  }));
  expect(netPresentValue(rows, 0.1).toFixed(2)).toBe("1307.29");
});
