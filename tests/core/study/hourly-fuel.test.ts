import { beforeAll, describe, expect, it } from "vitest";
import { sizePlant } from "../../../src/core/study/size-plant.ts";
import { dispatchAt, nothingNew } from "../../../src/core/study/sizing/dispatch-at.ts";
import type { Solvers } from "../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../src/solver/solvers.ts";
import { expectClose } from "../../support/close.ts";
import { plantOf } from "../../support/small-plant.ts";
import { smallStudy } from "../../support/small-study.ts";

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});

/** The small study whose fuel costs half by day; its price does not rise. */
function cheapByDay() {
  const study = smallStudy();
  Object.assign(study.backups[0]!.fuel, {
    escalation_per_year: 0,
    hourFactors: Array.from({ length: 24 }, (_, hour) => (hour >= 6 && hour < 18 ? 0.5 : 1)),
  });
  return study;
}

describe("a fuel with hourly prices", () => {
  it("is paid hour by hour in every figure of money", () => {
    const ageless = cheapByDay();
    ageless.collectors[0]!.ageing_per_year = 0;
    const model = plantOf(ageless);
    const { result, plan } = sizePlant(model, {
      method: "typical-days",
      solvers,
      version: "0",
      remarks: [],
    });
    // 500 kW all year at 0.07/0.85 by night and half of it by day.
    expectClose(result.baseline.fuelCost, 500 * 4380 * 1.5 * (0.07 / 0.85), 1e-9);
    let paid = 0;
    plan.hours.networks[0]!.backup_kW.forEach((heat, t) => {
      const price = 0.07 * (t % 24 >= 6 && t % 24 < 18 ? 0.5 : 1);
      paid += (heat * price) / 0.85;
    });
    const { annual, levelised, money } = result;
    expectClose(annual.fuelCostWithSolar - annual.electricity_kWh * 0.1, paid, 1e-9);
    // A price that does not rise is its own levelised price.
    expectClose(levelised.annualFuel, paid, 1e-9);
    expectClose(levelised.backupHeat[0]!.firstYear_per_kWh, (0.75 * 0.07) / 0.85, 1e-9);
    // Flows of the first year: fuel saved less electricity more.
    expectClose(money.cashFlow[1]!.avoided, annual.fuelCostAvoided, 1e-9);
    // The store serves the dear nights, so the mean price would tell too much.
    expect(paid).toBeLessThan(0.9 * annual.backup_kWh * ((0.75 * 0.07) / 0.85));
  });

  it("fills a store in cheap hours where the boiler may, and never where it may not", () => {
    const night = (mayCharge: boolean) => {
      const study = cheapByDay();
      Object.assign(study.backups[0]!, { mayCharge });
      Object.assign(study.stores[0]!, {
        existing_kWh: 1e5,
        standingLoss_per_day: 0,
        chargeEfficiency: 1,
        dischargeEfficiency: 1,
      });
      const { problem } = plantOf(study);
      const { hours } = dispatchAt(problem, nothingNew(problem), solvers.exact);
      return hours.networks[0]!.backup_kW.reduce(
        (all, heat, t) => all + (t % 24 >= 6 && t % 24 < 18 ? 0 : heat),
        0,
      );
    };
    expectClose(night(false), 500 * 4380, 1e-9);
    expect(night(true)).toBeLessThan(1e-3);
  });
});
