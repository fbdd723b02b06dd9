import { beforeAll, describe, expect, it } from "vitest";
import type { Result } from "../../../../src/core/study/result.ts";
import type { Study } from "../../../../src/core/study/schema/study.ts";
import { sizePlant } from "../../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../../src/solver/solvers.ts";
import { expectClose } from "../../../support/close.ts";
import { plantOf } from "../../../support/small-plant.ts";
import { smallStudy } from "../../../support/small-study.ts";

let solvers: Solvers;
let result: Result;

function study(): Study {
  const one = smallStudy();
  Object.assign(one.money, {
    inflation_per_year: 0.025,
    tax: { rate: 0.25, depreciation: "straight-line", depreciation_years: 10, losses: "used-at-once" },
    loan: { share: 0.6, interest_per_year: 0.05, years: 12, repayment: "annuity" },
    contract: { wantedReturn_per_year: 0.09, sellerShare: 0.3, index: "inflation" },
    land: { price_per_m2: 3, rent_per_m2_year: 0 },
  });
  return one;
}

beforeAll(async () => {
  solvers = await loadSolvers();
  result = sizePlant(plantOf(study()), { method: "typical-days", solvers, version: "0", remarks: [] }).result;
});

describe("money of the owner in a result", () => {
  it("has the capital of the cash flow, of the bound and of the promise alike", () => {
    for (const money of [result.money, result.replay!.simple.money]) {
      const { finance, cashFlow } = money;
      expectClose(finance!.loan, 0.6 * cashFlow[0]!.capital, 1e-12);
      expectClose(finance!.ownMoney + finance!.loan, cashFlow[0]!.capital, 1e-12);
      expect(finance!.years).toHaveLength(21);
      expect(finance!.ownMoneyWorth!.irr!).toBeGreaterThan(finance!.wholePlant.irr!);
    }
  });

  it("is the cash flow itself in money of the day, before tax and loan", () => {
    const { finance, cashFlow } = result.money;
    for (const { year, operating, replacements, residual } of finance!.years.slice(1)) {
      const row = cashFlow[year]!;
      const real = (operating - replacements + residual) / 1.025 ** year;
      expectClose(real, row.net - (row.credits ?? 0), 1e-9);
    }
  });

  it("sells just the heat that the sun gave, with the film at its age in each year", () => {
    const { contract } = result.replay!.simple.money;
    const used = result.replay!.simple.annual.solarUsed_kWh;
    const sold = contract!.years.slice(1).map(({ heat_kWh }) => heat_kWh);
    expect(Math.max(...sold) - Math.min(...sold)).toBeGreaterThan(0.005 * used);
    const mean = sold.reduce((all, heat) => all + heat, 0) / sold.length;
    expectClose(mean, used, 0.005);
  });

  it("gives both sides the whole of what the plant earns before tax", () => {
    const untaxed = study();
    delete untaxed.money.tax;
    delete untaxed.money.loan;
    const { money } = sizePlant(plantOf(untaxed), {
      method: "typical-days",
      solvers,
      version: "0",
      remarks: [],
    }).result;
    const { contract, cashFlow } = money;
    expect(contract!.price_per_kWh!).toBeGreaterThan(contract!.lowest_per_kWh!);
    for (const { year, seller, client } of contract!.years)
      expectClose(seller + client, cashFlow[year]!.net, 1e-9);
  });
});
