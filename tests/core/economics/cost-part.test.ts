import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { partAtSize, priceOfSize, tangentParts } from "../../../src/core/economics/cost-part.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const part = (more: object = {}) => ({
  name: "Store",
  price_per_unit: 40,
  life_years: 25,
  upkeep_per_unit_year: 0.2,
  ...more,
});

describe("priceOfSize(part, size)", () => {
  // The six-tenths rule of text-books on plant costs: ten times the size costs 10^0.6 = 3.98 times as much. From memory.
  it("follows the six-tenths rule", () => {
    const scaled = part({ scaleExponent: 0.6, referenceSize: 100 });
    expectClose(priceOfSize(scaled, 100), 4000, 1e-12);
    expectPrinted(priceOfSize(scaled, 1000) / priceOfSize(scaled, 100), "3.98");
  });

  it("is price times size plus what is fixed, and nothing for nothing", () => {
    expect(priceOfSize(part({ fixedPrice: 500 }), 10)).toBe(900);
    expect(priceOfSize(part({ fixedPrice: 500 }), 0)).toBe(0);
  });
});

const anyPart = fc
  .record({
    price_per_unit: fc.integer({ min: 1, max: 500 }),
    fixedPrice: fc.integer({ min: 0, max: 100_000 }),
    fixedUpkeep_per_year: fc.integer({ min: 0, max: 500 }),
    scaleExponent: fc.integer({ min: 30, max: 100 }).map((percent) => percent / 100),
    referenceSize: fc.integer({ min: 1, max: 10_000 }),
  })
  .map(part);
const size = fc.integer({ min: 1, max: 100_000 });

describe("tangentParts(parts, size)", () => {
  it("touches the true price at its size and lies nowhere below it", () => {
    fc.assert(
      fc.property(anyPart, size, size, (one, at, other) => {
        const { perUnit, onceBuilt } = tangentParts([one], at);
        const line = (q: number) => q * perUnit[0]!.price_per_unit + (onceBuilt[0]?.price_per_unit ?? 0);
        expectClose(line(at), priceOfSize(one, at), 1e-9);
        expect(line(other)).toBeGreaterThanOrEqual(priceOfSize(one, other) * (1 - 1e-9));
      }),
    );
  });

  it("takes each part at the price that it names where no size is known", () => {
    const { perUnit, onceBuilt } = tangentParts(
      [part({ scaleExponent: 0.7, referenceSize: 50, fixedPrice: 9 })],
      null,
    );
    expect(perUnit[0]!.price_per_unit).toBe(40);
    expect(onceBuilt).toEqual([
      { name: "Store", price_per_unit: 9, life_years: 25, upkeep_per_unit_year: 0 },
    ]);
  });
});

it("partAtSize(part, size) has the mean price and upkeep, so that size times them is exact", () => {
  fc.assert(
    fc.property(anyPart, size, (one, q) => {
      const mean = partAtSize(one, q);
      expectClose(q * mean.price_per_unit, priceOfSize(one, q), 1e-9);
      expectClose(
        q * mean.upkeep_per_unit_year,
        0.2 * q + (one as { fixedUpkeep_per_year?: number }).fixedUpkeep_per_year!,
        1e-9,
      );
    }),
  );
});
