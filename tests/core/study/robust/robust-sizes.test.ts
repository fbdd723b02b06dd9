import { beforeAll, describe, expect, it } from "vitest";
import type { PlantModel } from "../../../../src/core/study/plant-model.ts";
import type { Sizes } from "../../../../src/core/study/result.ts";
import { type PossibleYear, robustSizes } from "../../../../src/core/study/robust/robust-sizes.ts";
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

const fuelTimes = (factor: number, more: Partial<Study> = {}): PlantModel => {
  const study = smallStudy();
  study.backups[0]!.fuel.price_per_kWh *= factor;
  return plantOf({ ...study, ...more });
};

const possible = (probability: number, model: PlantModel, name = "year"): PossibleYear => ({
  id: name.toLowerCase(),
  name,
  probability,
  model,
});

const run = (base: PlantModel, years: readonly PossibleYear[]) =>
  robustSizes(base, years, { solver: solvers.engine, version: "test" });

const alone = (model: PlantModel) =>
  sizePlant(model, { method: "full-year", solvers, version: "test", remarks: [], replays: "none" }).result;

describe("robustSizes(base, years)", () => {
  it("of one certain year is the plain answer of that year", () => {
    const model = fuelTimes(1);
    const { answer } = run(model, [possible(1, model)]);
    const plain = alone(model);
    expectClose(answer.years[0]!.annualCost, plain.levelised.annualCost, 1e-6);
    expectClose(answer.expected.annualCost, plain.levelised.annualCost, 1e-6);
    expectClose(answer.proof.objective, plain.proof.objective, 1e-6);
    expectClose(answer.sizes.collectors[0]!.aperture_m2, plain.sizes.collectors[0]!.aperture_m2, 1e-3);
    expectClose(answer.years[0]!.solarFraction, plain.annual.solarFraction, 1e-3);
    expectClose(answer.years[0]!.fuelCostAvoided, plain.annual.fuelCostAvoided, 1e-3);
    expect(answer.valueOfKnowing).toBe(0);
    expect(answer.ownSizes.valueOfCommonSizes).toBe(0);
    expect(answer.status).toBe("optimal");
    expect(answer.sentences.join(" ")).toContain("is worth nothing");
  });

  it("of two price paths lies between the sizes of each, and its value of knowing is what the tables say", () => {
    const [cheap, dear] = [fuelTimes(0.5), fuelTimes(1.5)];
    const { answer } = run(fuelTimes(1), [possible(0.5, cheap, "Cheap"), possible(0.5, dear, "Dear")]);
    const high = alone(dear);
    const apertureOf = (sizes: Sizes) => sizes.collectors[0]!.aperture_m2;
    const aperture = apertureOf(answer.sizes);
    expect(apertureOf(answer.years[0]!.sizesIfKnown)).toBeLessThan(aperture);
    expect(apertureOf(high.sizes)).toBeGreaterThan(aperture);
    // What a year would cost if known is that year's own full-year answer.
    expectClose(answer.years[1]!.annualCostIfKnown, high.levelised.annualCost, 1e-6);
    const { annualCost, annualCostIfKnown } = answer.expected;
    expect(answer.valueOfKnowing).toBeGreaterThan(0);
    expect(Math.abs(annualCost - annualCostIfKnown - answer.valueOfKnowing!)).toBeLessThanOrEqual(
      2e-5 * annualCost,
    );
    // Cost is linear in the fuel price and yields are the same, so the common sizes are those of the mean
    // price, which is the study's own: they save nothing against it.
    expectClose(aperture, apertureOf(answer.ownSizes.sizes), 1e-3);
    expect(answer.ownSizes.valueOfCommonSizes).toBeLessThanOrEqual(1e-5 * annualCost);
    expect(answer.proof.relativeGap).toBeLessThanOrEqual(1e-6);
    expect(answer.proof.balanceResidual_kW).toBeLessThanOrEqual(1e-6);
  });

  it("says of a collector in modules that its aperture in common is not rounded", () => {
    const study = smallStudy();
    study.collectors[0]!.module_m2 = 40;
    const model = plantOf(study);
    const { answer } = run(model, [possible(1, model)]);
    const { aperture_m2 } = answer.sizes.collectors[0]!;
    expect(answer.findings).toHaveLength(1);
    const told = Number(/([\d.,]+) modules of 40 m²/.exec(answer.findings[0]!)?.[1]?.replace(",", ""));
    expectClose(told, aperture_m2 / 40, 0.01 * (aperture_m2 / 40));
    expect(run(plantOf(smallStudy()), [possible(1, plantOf(smallStudy()))]).answer.findings).toEqual([]);
  });

  it("says which year cannot be kept, and gives no value of knowing then", () => {
    const short = (level: number) => {
      const study = smallStudy();
      study.backups[0]!.existing_kW = 550;
      study.collectors[0]!.size = { choice: "fixed", fixed: 0 };
      study.stores[0]!.size = { choice: "fixed", fixed: 0 };
      const load = study.loads[0]!;
      if (load.kind === "process-heat") load.heat_kW = { from: "constant", level };
      return plantOf(study);
    };
    const { answer } = run(short(500), [
      possible(0.8, short(500), "Usual"),
      possible(0.2, short(600), "Busy"),
    ]);
    expect(answer.status).toBe("infeasible");
    // 50 kW in 8760 hours.
    expectClose(answer.years[1]!.unmet_kWh, 438_000, 1e-6);
    expect(answer.years[0]!.unmet_kWh).toBe(0);
    expect(answer.conflicts).toEqual(['In "Busy" 438,000 kWh of heat cannot be met.']);
    expect(answer.valueOfKnowing).toBeNull();
    expect(answer.ownSizes.valueOfCommonSizes).toBeNull();
  });

  it("keeps the least solar fraction in each year, and tells where the study's own sizes miss it", () => {
    const limits = { leastSolarFraction: 0.5 };
    const dull = (factor: number): PlantModel => {
      const model = plantOf({ ...smallStudy(), limits });
      const fields = model.problem.fields.map((field) => ({
        ...field,
        yield_kW_per_m2: field.yield_kW_per_m2.map((heat) => factor * heat),
      }));
      // Fuel so cheap that only the limit makes it build.
      const backups = model.problem.backups.map((item) => ({
        ...item,
        heatPrice_per_kWh: item.heatPrice_per_kWh.map((price) => 0.05 * price),
      }));
      return { ...model, problem: { ...model.problem, fields, backups } };
    };
    const { answer } = run(dull(1), [possible(0.5, dull(1), "Sunny"), possible(0.5, dull(0.8), "Dull")]);
    expect(answer.status).toBe("optimal");
    expectClose(answer.years[1]!.solarFraction, 0.5, 1e-4);
    expect(answer.years[0]!.solarFraction).toBeGreaterThan(0.5);
    expect(answer.ownSizes.valueOfCommonSizes).toBeNull();
    expect(answer.ownSizes.shortfalls.join(" ")).toMatch(/^In "Dull" the least solar fraction is missed by/);
    expect(answer.valueOfKnowing).toBeGreaterThan(0);
  });
});
