import { describe, expect, it } from "vitest";
import { checkStudy } from "../../../src/core/study/check-study.ts";
import type { Study } from "../../../src/core/study/schema/study.ts";
import { readStudyJson } from "../../../src/formats/study-json.ts";
import { smallStudy } from "../../support/small-study.ts";

const tax = { rate: 0.25, losses: "used-at-once" } as const;
const loan = { share: 0.5, interest_per_year: 0.05, years: 10, repayment: "annuity" } as const;

function faultsOf(change: (study: Study) => void) {
  const study = smallStudy();
  change(study);
  return checkStudy(study).map(({ code, place, message }) => ({ code, path: place?.path, message }));
}

describe("checkStudy(study) on money", () => {
  it.each<[string, (study: Study) => void, string, RegExp]>([
    [
      "a loan longer than the period",
      ({ money }) => (money.loan = { ...loan, years: 25 }),
      "money/loan/years",
      /25 years.*period of analysis over 20/,
    ],
    [
      "a loan that is never repaid",
      ({ money }) => (money.loan = { ...loan, interestOnly_years: 10 }),
      "money/loan/interestOnly_years",
      /10 of the loan's 10 years/,
    ],
    [
      "grants above the whole price",
      ({ money }) =>
        (money.grants = [
          { name: "A", on: "solar-plant", share: 0.6, paid: "with-purchase" },
          { name: "B", on: "all-new-plant", share: 0.5, paid: "after-first-year" },
        ]),
      "money/grants",
      /add up to 110 %/,
    ],
    [
      "depreciation without years",
      ({ money }) => (money.tax = { ...tax, depreciation: "straight-line" }),
      "money/tax/depreciation_years",
      /has no years/,
    ],
    [
      "shares of depreciation above one",
      ({ money }) => (money.tax = { ...tax, depreciation: "by-year", shares: [0.8, 0.3] }),
      "money/tax/shares",
      /add up to 110 %/,
    ],
    [
      "an exponent without its reference size",
      ({ stores }) => (stores[0]!.parts[0]!.scaleExponent = 0.6),
      "stores/0/parts/0/referenceSize",
      /"Tank" has a scale exponent of 0.6/,
    ],
    [
      "prices by year that do not begin with the first year's",
      ({ backups }) => (backups[0]!.fuel.yearFactors = [1.2, 1.3]),
      "backups/0/fuel/yearFactors/0",
      /must be 1/,
    ],
    [
      "a price path of an unknown price",
      ({ money }) => (money.pricePaths = [{ name: "High", of: "coal", escalation_per_year: 0.05 }]),
      "money/pricePaths/0/of",
      /"coal".*boiler, electricity, carbon/,
    ],
    [
      "a price given twice on one path",
      ({ money }) =>
        (money.pricePaths = [0.05, 0.06].map((rise) => ({
          name: "High",
          of: "boiler",
          escalation_per_year: rise,
        }))),
      "money/pricePaths/1/of",
      /"High" gives "boiler" twice/,
    ],
    [
      "a contract that follows an unnamed fuel",
      ({ money }) =>
        (money.contract = { wantedReturn_per_year: 0.08, sellerShare: 0.5, index: "fuel-price" }),
      "money/contract/indexFuel",
      /not named/,
    ],
    [
      "a range that runs backwards",
      (study) =>
        (study.sureness = {
          ranges: [{ input: "film-life", low: 1.2, high: 0.8, distribution: "uniform" }],
          draws: 100,
          seed: 1,
        }),
      "sureness/ranges/0/high",
      /from 1.2 to 0.8/,
    ],
    [
      "a factor of nothing",
      (study) =>
        (study.sureness = {
          ranges: [{ input: "fuel-price", low: 0, high: 2, distribution: "uniform" }],
          draws: 100,
          seed: 1,
        }),
      "sureness/ranges/0/low",
      /above 0/,
    ],
  ])("tells %s in a sentence, at its place", (_name, change, path, sentence) => {
    const faults = faultsOf(change);
    expect(faults.map((fault) => fault.path)).toEqual([path]);
    expect(faults[0]!.message).toMatch(sentence);
  });

  it("tells all at once", () => {
    const faults = faultsOf(({ money, stores }) => {
      money.loan = { ...loan, years: 25 };
      money.tax = { ...tax, depreciation: "declining-balance" };
      stores[0]!.parts[0]!.scaleExponent = 0.6;
    });
    expect(faults.map(({ code }) => code).sort()).toEqual([
      "STUDY_DEPRECIATION",
      "STUDY_DEPRECIATION",
      "STUDY_LOAN_PERIOD",
      "STUDY_PART_SCALE",
    ]);
  });
});

it.each<[string, (study: Study) => void, RegExp]>([
  ["a negative price", ({ collectors }) => (collectors[0]!.parts[0]!.price_per_unit = -80), /price_per_unit/],
  ["a life of zero", ({ collectors }) => (collectors[0]!.parts[1]!.life_years = 0), /life_years/],
  [
    "a grant above the whole",
    ({ money }) => (money.grants = [{ name: "A", on: "solar-plant", share: 1.2, paid: "with-purchase" }]),
    /share/,
  ],
])("readStudyJson(text, file) refuses %s in a sentence that names the place", (_name, change, place) => {
  const study = smallStudy();
  change(study);
  const read = readStudyJson(JSON.stringify(study), "study.json");
  expect(read.ok).toBe(false);
  if (read.ok) return;
  expect(read.problems).toHaveLength(1);
  expect(read.problems[0]!.place?.path).toMatch(place);
  expect(read.problems[0]!.message).toMatch(/-80|\b0\b|1\.2/);
});
