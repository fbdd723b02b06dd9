import { beforeAll, describe, expect, it } from "vitest";
import { capitalRecovery } from "../../../../src/core/economics/annuity.ts";
import type { Study } from "../../../../src/core/study/schema/study.ts";
import { sizePlant } from "../../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../../src/solver/solvers.ts";
import { expectClose } from "../../../support/close.ts";
import { plantOf } from "../../../support/small-plant.ts";
import { smallStudy } from "../../../support/small-study.ts";

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});

const size = (study: Study) =>
  sizePlant(plantOf(study), { method: "full-year", solvers, version: "0", remarks: [], replays: "none" })
    .result;

function changed(change: (study: Study) => void): Study {
  const study = smallStudy();
  change(study);
  return study;
}

const tankOf = ({ sizes }: { sizes: { stores: readonly { capacity_kWh: number }[] } }) =>
  sizes.stores[0]!.capacity_kWh;
const apertureOf = ({ sizes }: { sizes: { collectors: readonly { aperture_m2: number }[] } }) =>
  sizes.collectors[0]!.aperture_m2;

describe("fixed prices", () => {
  it("leave the sizes of what is built as they were and cost their annuity more", () => {
    const plain = size(smallStudy());
    const fixed = size(changed((study) => (study.collectors[0]!.parts[0]!.fixedPrice = 10_000)));
    expectClose(apertureOf(fixed), apertureOf(plain), 1e-4);
    expectClose(
      fixed.levelised.annualCost - plain.levelised.annualCost,
      10_000 * capitalRecovery(0.06, 20),
      1e-3,
    );
    expect(plain.truePrices).toBeNull();
    expect(fixed.truePrices!.trials).toHaveLength(2);
  });

  it("keep out what saves less than they cost, and say what was compared", () => {
    const result = size(changed((study) => (study.stores[0]!.parts[0]!.fixedPrice = 3_000_000)));
    const without = size(changed((study) => (study.stores[0]!.size = { choice: "fixed", fixed: 0 })));
    expect(tankOf(result)).toBe(0);
    expectClose(result.levelised.annualCost, without.levelised.annualCost, 1e-4);
    expect(result.truePrices!.trials.filter(({ chosen }) => chosen)).toEqual([
      expect.objectContaining({ without: ["Water tank"] }),
    ]);
  });

  it("choose between a store and none as the two sized by hand do, on either side of break-even", () => {
    const free = size(smallStudy()).levelised.annualCost;
    const none = size(changed((s) => (s.stores[0]!.size = { choice: "fixed", fixed: 0 }))).levelised
      .annualCost;
    const worth = (none - free) / capitalRecovery(0.06, 25);
    expect(worth).toBeGreaterThan(0);
    for (const [factor, isBuilt] of [
      [0.95, true],
      [1.05, false],
    ] as const) {
      const result = size(changed((s) => (s.stores[0]!.parts[0]!.fixedPrice = factor * worth)));
      expect(tankOf(result) > 1).toBe(isBuilt);
    }
  });
});

describe("a budget", () => {
  it("holds fixed prices and shared amounts too", () => {
    const budget = 150_000;
    const fixed = size(
      changed((study) => {
        study.limits.budget = budget;
        study.collectors[0]!.parts[0]!.fixedPrice = 20_000;
        study.money.sharedCosts = [{ name: "Permits", on: "solar-plant", amount: 5000 }];
      }),
    );
    expect(apertureOf(fixed)).toBeGreaterThan(100);
    expectClose(fixed.money.initialCapital, budget, 1e-5);
    const line = size(changed((study) => (study.limits.budget = budget - 25_000)));
    expectClose(apertureOf(fixed), apertureOf(line), 1e-4);
  });

  it("below a fixed price leaves the item out", () => {
    const result = size(
      changed((study) => {
        study.limits.budget = 10_000;
        study.collectors[0]!.parts[0]!.fixedPrice = 20_000;
      }),
    );
    expect(apertureOf(result)).toBe(0);
    expect(result.money.initialCapital).toBeLessThanOrEqual(10_000);
  });
});

it("nothing solar is built where a shared amount costs more than the plant saves", () => {
  const amount = (value: number) =>
    size(changed((s) => (s.money.sharedCosts = [{ name: "Permits", on: "solar-plant", amount: value }])));
  const free = size(smallStudy()).levelised;
  const worth = (free.annualCostBaseline - free.annualCost) / capitalRecovery(0.06, 20);
  expect(apertureOf(amount(0.95 * worth))).toBeGreaterThan(100);
  const dear = amount(1.05 * worth);
  expect(apertureOf(dear)).toBe(0);
  expectClose(dear.levelised.annualCost, free.annualCostBaseline, 1e-6);
});

describe("scale exponents", () => {
  const scaled = (more: (study: Study) => void = () => {}) =>
    changed((study) => {
      Object.assign(study.stores[0]!.parts[0]!, { scaleExponent: 0.7, referenceSize: 2000 });
      more(study);
    });

  it("settle at sizes whose neighbours cost no less", () => {
    const result = size(scaled());
    const tank_kWh = tankOf(result);
    expect(tank_kWh).toBeGreaterThan(100);
    const price = result.money.parts.find(({ part }) => part === "Tank")!.price;
    expectClose(price, 15 * 2000 * (tank_kWh / 2000) ** 0.7, 1e-9);
    for (const factor of [0.8, 0.95, 1.05, 1.25]) {
      const near = size(scaled((s) => (s.stores[0]!.size = { choice: "fixed", fixed: factor * tank_kWh })));
      expect(near.levelised.annualCost).toBeGreaterThan(result.levelised.annualCost * (1 - 1e-5));
    }
  });
});

describe("shared costs, land and grants", () => {
  it("act as the same shares in the prices of the parts", () => {
    const shared = size(
      changed((study) => {
        study.money.sharedCosts = [
          { name: "Engineering", on: "solar-plant", share: 0.1 },
          { name: "Insurance", on: "all-new-plant", share_per_year: 0.01 },
        ];
        study.money.grants = [{ name: "Grant", on: "solar-plant", share: 0.3, paid: "with-purchase" }];
        study.money.land = { price_per_m2: 4, rent_per_m2_year: 0.1 };
      }),
    );
    const aperture = apertureOf(shared);
    const tank = tankOf(shared);
    const first = aperture * 84 + tank * 15;
    const land_m2 = aperture / 0.4;
    expectClose(shared.money.initialCapital, first * 1.1 * 0.7 + land_m2 * 4, 1e-9);
    expectClose(shared.sizes.initialCapital, shared.money.initialCapital, 1e-12);
    const line = (part: string) => shared.money.parts.find((one) => one.part === part)!;
    expectClose(line("Engineering").price, 0.1 * first, 1e-9);
    expectClose(line("Insurance").upkeep_per_year, 0.01 * first, 1e-9);
    expectClose(line("Grant").price, -0.3 * 1.1 * first, 1e-9);
    expectClose(line("Land").annualCost, land_m2 * (4 * 0.06 + 0.1), 1e-9);
    // The program saw the same money: its objective is the year's cost.
    expectClose(shared.proof.objective, shared.levelised.annualCost, 2e-4);
    const byPart = shared.levelised.solarHeatParts!.reduce((all, part) => all + part.cost_per_kWh, 0);
    expectClose(byPart, shared.levelised.solarHeat_per_kWh!, 1e-12);
  });

  it("stop a grant at its most, in the money and in what one more unit costs", () => {
    const grant = { name: "Grant", on: "solar-plant" as const, share: 0.3, paid: "with-purchase" as const };
    const without = size(smallStudy());
    const full = size(changed((s) => (s.money.grants = [{ ...grant, most: 5000 }])));
    expect(full.money.parts.find(({ part }) => part === "Grant")!.price).toBe(-5000);
    expectClose(apertureOf(full), apertureOf(without), 1e-4);
    expectClose(
      without.levelised.annualCost - full.levelised.annualCost,
      5000 * capitalRecovery(0.06, 20),
      1e-3,
    );
    const whole = size(changed((s) => (s.money.grants = [{ ...grant, most: 1e9 }])));
    const uncapped = size(changed((s) => (s.money.grants = [grant])));
    expectClose(whole.levelised.annualCost, uncapped.levelised.annualCost, 1e-6);
    expect(apertureOf(uncapped)).toBeGreaterThan(apertureOf(without));
  });

  it("count a tax credit in the first year and not in the capital", () => {
    const result = size(
      changed((s) => {
        s.money.inflation_per_year = 0.02;
        s.money.grants = [{ name: "Tax credit", on: "solar-plant", share: 0.2, paid: "after-first-year" }];
      }),
    );
    const { cashFlow } = result.money;
    expectClose(cashFlow[1]!.credits!, (0.2 * cashFlow[0]!.capital) / 1.02, 1e-9);
    expectClose(result.proof.objective, result.levelised.annualCost, 2e-4);
  });
});

it("names the true price of the second year where prices are given by year", () => {
  const result = size(
    changed((study) => {
      study.backups[0]!.fuel.yearFactors = [1, 2, 1];
      study.backups[0]!.fuel.escalation_per_year = 0;
      study.collectors[0]!.ageing_per_year = 0;
      study.electricity.escalation_per_year = 0;
      study.money.pricePaths = [{ name: "Flat", of: "boiler", escalation_per_year: 0 }];
    }),
  );
  const { cashFlow } = result.money;
  const electricity = cashFlow[1]!.avoided - cashFlow[3]!.avoided;
  expectClose(electricity, 0, 1e-9);
  expect(cashFlow[2]!.avoided).toBeGreaterThan(1.9 * cashFlow[1]!.avoided);
  const flat = result.money.pricePaths![0]!;
  expectClose(flat.fuelCostAvoidedOverPeriod, 20 * cashFlow[1]!.avoided, 1e-9);
  expect(flat.npv).toBeLessThan(result.money.npv);
});
