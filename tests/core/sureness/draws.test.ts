import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { randomStream } from "../../../src/core/sun/random.ts";
import { drawFigures, drawnValue, drawOf, normalOf } from "../../../src/core/sureness/draws.ts";
import { quantile } from "../../../src/core/sureness/quantile.ts";
import { joinDraws, summariseDraws } from "../../../src/core/sureness/sureness-answer.ts";
import type { InputRange } from "../../../src/core/sureness/uncertain-inputs.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const range = (more: Partial<InputRange> = {}): InputRange => ({
  input: "fuel-price",
  words: "Price of fuel",
  by: "factor",
  low: 0.8,
  high: 1.4,
  distribution: "triangular",
  source: "test",
  ...more,
});

describe("quantile(values, share)", () => {
  // Documentation of a statistics package, type 7: quantile(c(1, 2, 3, 4), 0.1) is 1.3; of 1 to 11 the tenth is 2. From memory.
  it("is the printed one", () => {
    expectPrinted(quantile([1, 2, 3, 4], 0.1), "1.3");
    expectPrinted(quantile([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11], 0.1), "2");
    expect(() => quantile([], 0.5)).toThrow("OUT_OF_RANGE");
  });
});

describe("normalOf(share)", () => {
  // Tables of the standard normal distribution.
  it.each([
    [0.5, "0.0000"],
    [0.9, "1.2816"],
    [0.975, "1.9600"],
    [0.99, "2.3263"],
    [0.999, "3.0902"],
    [0.01, "-2.3263"],
  ])("at %d is the tabled one", (share, printed) => {
    expectPrinted(normalOf(share), printed);
  });
});

const many = 20_000;
const sample = (one: InputRange) => {
  const stream = randomStream(3);
  return Float64Array.from({ length: many }, () => drawnValue(one, stream)!);
};
const moments = (values: Float64Array) => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  return { mean, deviation: Math.sqrt(variance) };
};

describe("drawnValue(range, stream)", () => {
  // Closed forms: triangular (a, c, b): mean (a+b+c)/3, variance (a²+b²+c²−ab−ac−bc)/18; uniform: (a+b)/2, (b−a)²/12.
  it.each([
    ["triangular", (0.8 + 1 + 1.4) / 3, Math.sqrt((0.64 + 1 + 1.96 - 0.8 - 1.12 - 1.4) / 18)],
    ["uniform", 1.1, 0.6 / Math.sqrt(12)],
    ["normal", 1.1, 0.3 / 1.2815515655],
  ] as const)(
    "drawn from %s has the moments of its closed form, within four standard errors",
    (distribution, mean, deviation) => {
      const found = moments(sample(range({ distribution })));
      expect(Math.abs(found.mean - mean)).toBeLessThan((4 * deviation) / Math.sqrt(many));
      expect(Math.abs(found.deviation / deviation - 1)).toBeLessThan(4 / Math.sqrt(many));
    },
  );

  it("lies a tenth each below low and above high where it is normal", () => {
    const values = sample(range({ distribution: "normal" })).sort();
    expect(Math.abs(quantile(values, 0.1) - 0.8)).toBeLessThan(0.01);
    expect(Math.abs(quantile(values, 0.9) - 1.4)).toBeLessThan(0.01);
  });
});

describe("draws", () => {
  const ranges = [range(), range({ input: "demand", low: 0.9, high: 1.1, distribution: "uniform" })];
  const drawing = { ranges, yearShares: [0.25, 0.75], seed: 11 };
  const at = (variation: { readonly [input: string]: number | undefined }, year: number) => ({
    fuelCostAvoided: 100 * variation["fuel-price"]! * variation.demand! + year,
    npv: variation["fuel-price"]! - 1,
    annualCost: 0,
    solarHeat_per_kWh: null,
    solarFraction: 0,
    simplePayback_years: null,
  });

  it("are the same however they are dealt out", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99 }), (cut) => {
        const whole = drawFigures(drawing, at, 0, 100);
        const parts = joinDraws([drawFigures(drawing, at, 0, cut), drawFigures(drawing, at, cut, 100)]);
        expect(parts).toEqual(whole);
      }),
      { numRuns: 20 },
    );
  });

  it("take an input's number alike, whether another is drawn or not", () => {
    const still = [range({ distribution: "none" }), ranges[1]!];
    for (let n = 0; n < 50; n += 1) {
      expect(drawOf({ ...drawing, ranges: still }, n).variation).toEqual({
        demand: drawOf(drawing, n).variation.demand,
      });
    }
  });

  it("take weather years as often as they are likely, and other seeds other draws", () => {
    const years = Array.from({ length: 4000 }, (_, n) => drawOf(drawing, n).year);
    const second = years.filter((year) => year === 1).length / 4000;
    expect(Math.abs(second - 0.75)).toBeLessThan(4 * Math.sqrt((0.75 * 0.25) / 4000));
    expect(drawOf({ ...drawing, seed: 12 }, 0)).not.toEqual(drawOf(drawing, 0));
  });

  it("come to the figure itself where nothing is drawn", () => {
    const none = { ranges: [], yearShares: [1], seed: 1 };
    const figures = drawFigures(none, () => at({ "fuel-price": 1, demand: 1 }, 0), 0, 50);
    const { fuelCostAvoided, lossShare, solarHeat_per_kWh } = summariseDraws(figures, {
      seed: 1,
      weatherYears: 1,
    });
    expect([fuelCostAvoided.p10, fuelCostAvoided.p50, fuelCostAvoided.p90]).toEqual([100, 100, 100]);
    expectClose(fuelCostAvoided.mean, 100, 1e-12);
    expect(lossShare).toBe(0);
    expect(solarHeat_per_kWh).toBeNull();
  });
});
