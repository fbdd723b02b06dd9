import { beforeAll, describe, expect, it } from "vitest";
import type { LpSolver } from "../../../src/core/dispatch/program.ts";
import { annualOf } from "../../../src/core/study/report/annual.ts";
import { levelisedOf, moneyOf } from "../../../src/core/study/report/money.ts";
import { replaysOf } from "../../../src/core/study/report/replays.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { expectClose } from "../../support/close.ts";
import { plantOf } from "../../support/small-plant.ts";
import { smallStudy } from "../../support/small-study.ts";
import { boundPlan, someSizes } from "../replay/support.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

describe("replays of a study", () => {
  it("give a year in the shape of the plan's, against the same baseline, and the gap in money", () => {
    const model = plantOf(smallStudy());
    const baseline = boundPlan(model.problem, someSizes(model.problem, 0), highs).plan;
    const bound = boundPlan(model.problem, someSizes(model.problem, 1), highs).plan;
    const told: string[] = [];
    const { simple, twoDay } = replaysOf(model, bound, baseline, {
      planner: highs,
      film: null,
      onProgress: (doing) => told.push(doing),
    });
    const annual = annualOf(model, bound, baseline);
    const { annualCost } = levelisedOf(model, bound, baseline);
    for (const figures of [simple, twoDay!]) {
      expectClose(figures.annual.fuelCostBaseline, annual.fuelCostBaseline, 1e-12);
      expectClose(figures.annual.demand_kWh, annual.demand_kWh, 1e-9);
      expect(figures.annual.unmet_kWh).toBe(0);
      expect(figures.annual.solarFraction).toBeLessThanOrEqual(annual.solarFraction + 1e-9);
      expect(figures.gap_per_year).toBeGreaterThanOrEqual(-1e-6 * annualCost);
      expectClose(figures.annualCost - annualCost, figures.gap_per_year, 1e-9);
      expect(figures.sentences[0]).toContain("than perfect foresight would");
    }
    expect(told[0]).toContain("simple controller");
    expect(told.length).toBe(1 + 365);
  });

  it("have the money, networks and months of their own hours", () => {
    const study = smallStudy();
    // A boiler that cannot run low makes the controller's year differ from the bound's.
    study.backups[0]!.leastLoadShare = 0.3;
    study.backups[0]!.existing_kW = 1000;
    const model = plantOf(study);
    const baseline = boundPlan(model.problem, someSizes(model.problem, 0), highs).plan;
    const bound = boundPlan(model.problem, someSizes(model.problem, 1), highs).plan;
    const { simple } = replaysOf(model, bound, baseline, { planner: null, film: null });
    const { annual, money, networks, months, levelised } = simple;
    const total = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);
    expectClose(total(networks.map(({ backup_kWh }) => backup_kWh)), annual.backup_kWh, 1e-9);
    expectClose(total(months.map(({ backup_kWh }) => backup_kWh)), annual.backup_kWh, 1e-9);
    expectClose(total(months.map(({ spill_kWh }) => spill_kWh)), annual.spilled_kWh, 1e-9);
    expectClose(levelised.annualCost, simple.annualCost, 1e-12);
    // The first year's flow is the year's own saving; net present value by its definition.
    expectClose(money.cashFlow[1]!.avoided, annual.fuelCostAvoided, 1e-9);
    const rate = study.money.realDiscountRate;
    expectClose(total(money.cashFlow.map(({ net, year }) => net / (1 + rate) ** year)), money.npv, 1e-9);
    const ideal = moneyOf(model, bound, baseline, null);
    expect(money.initialCapital).toBe(ideal.initialCapital);
    expect(money.npv).toBeLessThan(ideal.npv);
  });

  it("run the simple controller alone where no planner is given", () => {
    const study = smallStudy();
    study.backups[0]!.leastLoadShare = 0.3;
    study.backups[0]!.existing_kW = 1000;
    const model = plantOf(study);
    expect(model.rules.backupLeastShare).toEqual([0.3]);
    const baseline = boundPlan(model.problem, someSizes(model.problem, 0), highs).plan;
    const bound = boundPlan(model.problem, someSizes(model.problem, 1), highs).plan;
    const { simple, twoDay } = replaysOf(model, bound, baseline, { planner: null, film: null });
    expect(twoDay).toBeNull();
    // The boiler gives 300 kW or more where less is missing; 500 kW are drawn, so the sun gives way.
    expect(simple.wasted_kWh).toBe(0);
    const { simple: free } = replaysOf(plantOf(smallStudy()), bound, baseline, { planner: null, film: null });
    expect(simple.annual.spilled_kWh).toBeGreaterThan(free.annual.spilled_kWh);
    expect(simple.gap_per_year).toBeGreaterThan(0);
  });
});
