import { beforeAll, describe, expect, it } from "vitest";
import { hourlyKeep } from "../../../src/core/storage/store-capacity.ts";
import type { PlantModel } from "../../../src/core/study/plant-model.ts";
import type { Study } from "../../../src/core/study/schema/study.ts";
import { expectClose } from "../../support/close.ts";
import { plantOf } from "../../support/small-plant.ts";
import { smallStudy } from "../../support/small-study.ts";

let model: PlantModel;
beforeAll(() => {
  model = plantOf(smallStudy());
});

/** Nothing escalates, electricity has no CO2. */
function flat(change: (study: Study) => void): Study {
  const study = smallStudy();
  study.backups[0]!.fuel.escalation_per_year = 0;
  study.electricity.escalation_per_year = 0;
  delete study.electricity.co2_kg_per_kWh;
  change(study);
  return study;
}

describe("a study in numbers", () => {
  it("is a year of hours that closes on itself", () => {
    const { problem } = model;
    expect(problem.blocks).toBe(8760);
    expect(problem.cycles).toEqual([{ start: 0, length: 8760 }]);
    expect(problem.weight.every((weight) => weight === 1)).toBe(true);
    expect(problem.networks[0]!.fixed_kW.every((heat) => heat === 500)).toBe(true);
  });

  it("adds up the loads of a network", () => {
    const study = smallStudy();
    study.loads.push({ ...study.loads[0]!, id: "rinse", heat_kW: { from: "constant", level: 120 } } as never);
    expect(plantOf(study).problem.networks[0]!.fixed_kW.every((heat) => heat === 620)).toBe(true);
  });

  it("gives existing aperture to the collector's first network alone", () => {
    const study = smallStudy();
    study.networks.push({ ...study.networks[0]!, id: "warm", name: "Warm", supply_C: 60, return_C: 40 });
    study.collectors[0]!.networks = ["hot-water", "warm"];
    study.collectors[0]!.existing_m2 = 700;
    study.collectors[0]!.size = { choice: "bounded", least: 100, most: 900 };
    const { problem, fields } = plantOf(study);
    expect(fields.map(({ network }) => network.id)).toEqual(["hot-water", "warm"]);
    expect(problem.fields.map((field) => field.existing_m2)).toEqual([700, 0]);
    // Its bounds then tie both fields together.
    expect(problem.collectors[0]).toMatchObject({ least_m2: 100, most_m2: 900 });
    expect(problem.fields.map(({ least_m2, most_m2 }) => [least_m2, most_m2])).toEqual([
      [0, Number.POSITIVE_INFINITY],
      [0, Number.POSITIVE_INFINITY],
    ]);
  });

  it("pays each part over its own life", () => {
    // CRF 6 %: 20 years 0.0871846, 2 years 0.5454369, 25 years 0.0782267 (any engineering-economy table).
    expectClose(model.problem.collectors[0]!.annualCost_per_m2, 80 * 0.0871846 + 1 + 4 * 0.5454369, 1e-6);
    expect(model.problem.collectors[0]!.initialCost_per_m2).toBe(84);
    expectClose(model.problem.stores[0]!.size.annualCost_per_unit, 15 * 0.0782267 + 0.1, 1e-6);
  });

  it("loses a day's share of a store over a day's hours", () => {
    expectClose(model.problem.stores[0]!.keep_per_h ** 24, 0.98, 1e-12);
    expectClose(model.problem.stores[0]!.keep_per_h, hourlyKeep(0.02), 1e-12);
  });

  it("draws parasitic power only while a field gives heat", () => {
    const [field] = model.problem.fields;
    field!.parasitic_kW_per_m2.forEach((power, t) => {
      expect(power).toBe(field!.yield_kW_per_m2[t]! > 0 ? 0.002 : 0);
    });
  });

  it("prices unmet heat at a thousand times the dearest heat", () => {
    const { prices, problem } = model;
    expectClose(problem.unmetPrice_per_kWh, 1000 * prices.backups[0]!.objective_per_kWh[0]!, 1e-12);
    expect(problem.backups[0]!.heatPrice_per_kWh).toEqual(prices.backups[0]!.objective_per_kWh);
  });
});

describe("prices over the period", () => {
  it("levelise a price that escalates", () => {
    // Duffie & Beckman eq. 11.5.1: PWF(20, 0.02, 0.06) = (1 − (1.02/1.06)^20)/0.04, over P/A(20, 6 %) = 11.46992.
    const worth = (1 - (1.02 / 1.06) ** 20) / 0.04;
    expectClose(model.prices.backups[0]!.firstYear_per_kWh[0]!, 0.07 / 0.85, 1e-12);
    expectClose(model.prices.backups[0]!.levelised_per_kWh[0]!, ((0.07 / 0.85) * worth) / 11.46992, 1e-6);
  });

  it("take a price on carbon as so much more on the fuel", () => {
    const price_per_kg = 0.08;
    const taxed = plantOf(
      flat((study) => {
        study.money.carbonPrice_per_t = 1000 * price_per_kg;
      }),
    );
    const factor = taxed.prices.backups[0]!.terms.co2_kg_per_kWhNet!;
    // Gas oil, IPCC 2006 vol. 2 table 2.2: 74 100 kg/TJ on net calorific value.
    expectClose(factor, 74_100 * 3.6e-6, 1e-9);
    const dearer = plantOf(
      flat((study) => {
        study.money.carbonPrice_per_t = 0;
        study.backups[0]!.fuel.price_per_kWh += price_per_kg * factor;
      }),
    );
    expectClose(
      taxed.prices.backups[0]!.objective_per_kWh[0]!,
      dearer.prices.backups[0]!.objective_per_kWh[0]!,
      1e-12,
    );
    expectClose(
      taxed.prices.backups[0]!.objective_per_kWh[0]! - taxed.prices.backups[0]!.levelised_per_kWh[0]!,
      (price_per_kg * factor) / 0.85,
      1e-12,
    );
  });
});
