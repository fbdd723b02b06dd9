import fc from "fast-check";
import { pv } from "financial";
import { describe, expect, it } from "vitest";
import {
  capitalRecovery,
  levelisationFactor,
  presentWorth,
  presentWorthGrowing,
} from "../../../src/core/economics/annuity.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

describe("capitalRecovery(rate, years)", () => {
  // Interest tables of engineering-economy texts, from memory.
  it.each([
    [0.08, 20, "0.10185"],
    [0.05, 25, "0.07095"],
    [0.1, 10, "0.16275"],
    [0.06, 20, "0.08718"],
    [0.07, 20, "0.09439"],
    [0.12, 5, "0.27741"],
    [0.04, 25, "0.06401"],
    [0.03, 20, "0.06722"],
  ])("gives the tabulated factor at %d over %d years", (rate, years, printed) => {
    expectPrinted(capitalRecovery(rate, years), printed);
  });

  // A/P = A/F + i; (A/F) 8 %, 20 = 0.02185 in the same tables.
  it("exceeds the sinking fund factor by the rate", () => {
    expectPrinted(capitalRecovery(0.08, 20) - 0.08, "0.02185");
  });

  // The limit at rate 0 is exact.
  it("is 1/years at rate 0 and stays smooth beside it", () => {
    expect(capitalRecovery(0, 7)).toBe(1 / 7);
    for (const rate of [1e-300, 1e-18, 1e-15, 1e-12, -1e-12, 5e-324]) {
      expectClose(capitalRecovery(rate, 2.5), 0.4, 2e-12);
    }
  });

  // First terms of the series: 1/n + r(n + 1)/(2n) + O(r²).
  it("follows its series near rate 0", () => {
    expectClose(capitalRecovery(1e-6, 20), 1 / 20 + (1e-6 * 21) / 40, 1e-10);
  });

  it.each([
    [0.05, 0],
    [0.05, Number.NaN],
    [-1, 3],
    [Number.NaN, 3],
  ])("rejects a rate of %d over %d years", (rate, years) => {
    expect(() => capitalRecovery(rate, years)).toThrow("OUT_OF_RANGE");
  });
});

describe("presentWorth(rate, years)", () => {
  it("gives the tabulated 9.8181 at 8 % over 20 years", () => {
    expectPrinted(presentWorth(0.08, 20), "9.8181");
  });

  it("agrees with a general library", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.5, noNaN: true }),
        fc.integer({ min: 1, max: 60 }),
        (rate, years) => {
          expectClose(presentWorth(rate, years), -pv(rate, years, 1), 1e-11);
        },
      ),
    );
  });
});

describe("presentWorthGrowing(years, growth, rate)", () => {
  // Duffie & Beckman eq. 11.5.1-2 (form from memory), computed from it.
  it.each([
    [20, 0, 0.08, "9.818"],
    [20, 0.1, 0.08, "22.169"],
    [20, 0.06, 0.08, "15.596"],
    [20, 0.08, 0.08, "18.519"],
    [10, 0.07, 0.08, "8.883"],
  ])("over %d years growing by %d at %d", (years, growth, rate, printed) => {
    expectPrinted(presentWorthGrowing(years, growth, rate), printed);
  });

  it("is the sum of its flows", () => {
    const share = fc.double({ min: -0.2, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), share, share, (years, growth, rate) => {
        let sum = 0;
        for (let year = 1; year <= years; year++) sum += (1 + growth) ** (year - 1) / (1 + rate) ** year;
        expectClose(presentWorthGrowing(years, growth, rate), sum, 1e-10);
      }),
    );
  });
});

describe("levelisationFactor(years, growth, rate)", () => {
  it("is 1 without growth", () => {
    expectClose(levelisationFactor(25, 0, 0.05), 1, 1e-15);
  });
});
