import fc from "fast-check";
import { npv } from "financial";
import { expect, it } from "vitest";
import { levelisationFactor, presentWorth } from "../../../src/core/economics/annuity.ts";
import { levelOfCourse, priceYears } from "../../../src/core/economics/price-years.ts";
import { expectClose } from "../../support/close.ts";

it("goes on from the last factor given by the price rise", () => {
  expect([...priceYears({ escalation_per_year: 0.1, yearFactors: [1, 1.5, 0.8] }, 5)]).toEqual([
    1,
    1.5,
    0.8,
    0.8 * 1.1,
    0.8 * 1.1 ** 2,
  ]);
});

it("keeps to the period where more years are given", () => {
  expect([...priceYears({ escalation_per_year: 0, yearFactors: [1, 2, 3] }, 2)]).toEqual([1, 2]);
});

it("levels a course given by year to the same as its rise, where it is that rise", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 60 }),
      fc.double({ min: -0.2, max: 0.3, noNaN: true }),
      fc.double({ min: 0, max: 0.5, noNaN: true }),
      (years, rise, rate) => {
        const yearFactors = Array.from({ length: years }, (_, t) => (1 + rise) ** t);
        expectClose(
          levelOfCourse({ escalation_per_year: 0, yearFactors }, years, rate),
          levelisationFactor(years, rise, rate),
          1e-10,
        );
      },
    ),
  );
});

it("is worth as much as the yearly prices, by the general package", () => {
  const yearFactors = [1, 1.4, 0.9, 1.1];
  const worth = npv(0.07, [0, ...yearFactors]);
  expectClose(
    levelOfCourse({ escalation_per_year: 0, yearFactors }, 4, 0.07) * presentWorth(0.07, 4),
    worth,
    1e-12,
  );
});
