import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { threeDigits, withDecimals } from "../../src/present/numbers.ts";
import { bareMoney, energy, heatPrice, money, percent, power, years } from "../../src/present/quantities.ts";

const writing = { locale: "en", currency: "XTS" };
const thin = "\u202f";

describe("figures as they are shown", () => {
  // By the rules of the design: three significant digits, separators by locale, no cents from 100 on.
  it.each([
    [12_345.6, "en", "12,300"],
    [12_345.6, "de", "12.300"],
    [0.012345, "en", "0.0123"],
    [-0, "en", "0"],
    [1e-12, "en", "0"],
    [-0.5, "en", "−0.500"],
    [Number.NaN, "en", "–"],
    [Number.POSITIVE_INFINITY, "en", "–"],
  ])("writes %s in %s as %s", (value, locale, text) => {
    expect(threeDigits(value, locale)).toBe(text);
  });

  it.each([
    [99.994, "99.99"],
    [0.004, "0"],
    [123.4, "123"],
    [1_234_567, "1,230,000"],
  ])("writes money of %s as %s", (value, text) => {
    expect(bareMoney(value, "en")).toBe(text);
    expect(money(value, writing)).toBe(`${text}${thin}XTS`);
  });

  it("chooses the unit that reads best, and not 1,000 of the smaller", () => {
    expect(energy(999, writing)).toBe(`999${thin}kWh`);
    expect(energy(12_000, writing)).toBe(`12.0${thin}MWh`);
    expect(energy(999_999, writing)).toBe(`1.00${thin}GWh`);
    expect(power(9_999, writing)).toBe(`10.0${thin}MW`);
  });

  it("writes shares as per cent with one decimal, and missing ones as a dash", () => {
    expect(percent(0.8531, writing)).toBe(`85.3${thin}%`);
    expect(percent(1, writing)).toBe(`100${thin}%`);
    expect(percent(-1e-15, writing)).toBe(`0${thin}%`);
    expect(percent(null, writing)).toBe("–");
    expect(years(null, writing)).toBe("–");
    expect(heatPrice(Number.NaN, writing)).toBe("–");
  });

  it("never shows NaN, Infinity, minus nothing or a power of ten", () => {
    fc.assert(
      fc.property(fc.double(), fc.integer({ min: 0, max: 3 }), (value, decimals) => {
        const shown = [
          threeDigits(value),
          withDecimals(value, decimals),
          energy(value, writing),
          power(value, writing),
          money(value, writing),
          percent(value, writing),
        ];
        for (const text of shown) expect(text).not.toMatch(/NaN|Infinity|∞|e[-+]?\d|^[−-]0(\.0+)?(?![.\d])/);
      }),
    );
  });
});
