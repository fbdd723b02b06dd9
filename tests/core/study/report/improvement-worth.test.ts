import { beforeAll, describe, expect, it } from "vitest";
import { improvements } from "../../../../src/core/collector/improvements.ts";
import { collectorRecords } from "../../../../src/core/collector/records.ts";
import type { CollectorImprovement } from "../../../../src/core/study/collector-figures.ts";
import type { Result } from "../../../../src/core/study/result.ts";
import type { Collector, Study } from "../../../../src/core/study/schema/study.ts";
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

function sized(study: Study, method: "full-year" | "typical-days" = "full-year"): Result {
  return sizePlant(plantOf(study), { method, solvers, version: "0", remarks: [], replays: "none" }).result;
}

/** The small study with a film trough whose every property can be better. */
function filmStudy(change: (collector: Collector) => void = () => {}): Study {
  const study = smallStudy();
  const collector = study.collectors[0]!;
  const parts = [
    { name: "Frame", price_per_unit: 120, life_years: 20, upkeep_per_unit_year: 1 },
    { name: "Film", price_per_unit: 3, life_years: 2, upkeep_per_unit_year: 0 },
  ];
  Object.assign(collector, {
    optics: {
      by: "computed",
      filmTransmittance: 0.9,
      filmPasses: 1,
      reflectance: 0.88,
      intercept: 0.93,
      absorptance: 0.94,
    },
    heatLoss: { by: "iso-9806", a1_W_m2K: 0.6, a2_W_m2K2: 0.003, a5_kJ_m2K: 8 },
    storm: { stowWind_m_s: 6, backAfter_h: 2 },
    cleanliness: 0.95,
    ageing_per_year: 0.05,
    filmPart: "Film",
    parts,
  });
  change(collector);
  return study;
}

describe("what a small improvement of a collector is worth", () => {
  let study: Study;
  let result: Result;
  let area_m2: number;
  let list: readonly CollectorImprovement[];
  beforeAll(() => {
    study = filmStudy();
    result = sized(study);
    area_m2 = result.sizes.collectors[0]!.aperture_m2;
    list = result.collectors[0]!.improvements!;
  });

  it("is told for every property that can be better, dearest first", () => {
    expect(list.map(({ id }) => id).sort()).toEqual(
      improvements(study.collectors[0]!)
        .map(({ id }) => id)
        .sort(),
    );
    expect(list.length).toBe(10);
    for (let i = 1; i < list.length; i += 1) {
      expect(list[i]!.worth_per_m2_year).toBeLessThanOrEqual(list[i - 1]!.worth_per_m2_year);
    }
  });

  // At the sizes held the least cost is convex in the heat collected, so a step cannot save more than its price.
  it("bounds what the improved plant of the same size saves, and comes near it where the step is small", () => {
    expect(area_m2).toBeGreaterThan(100);
    for (const id of ["reflectance", "heatLoss", "stowWind_m_s"]) {
      const told = list.find((one) => one.id === id)!;
      const held = structuredClone(study);
      held.collectors[0] = {
        ...improvements(study.collectors[0]!).find((one) => one.id === id)!.changed,
        size: { choice: "fixed", fixed: area_m2 },
      };
      const saved = (result.proof.objective - sized(held).proof.objective) / area_m2;
      const slack = (1e-6 * result.proof.objective) / area_m2;
      expect(saved).toBeLessThanOrEqual(told.worth_per_m2_year + slack);
      expect(saved).toBeGreaterThan(0);
      expect(told.wholeHours).toBe(id === "stowWind_m_s");
      if (!told.wholeHours) expect(saved).toBeGreaterThan(0.95 * told.worth_per_m2_year);
    }
  });

  // D&B sec. 11.5: a yearly saving of 1 over a life is worth P/A today.
  it("may cost once per life of what it lasts with: the film, or the collector", () => {
    const presentWorth = (years: number) =>
      (1 - (1 + study.money.realDiscountRate) ** -years) / study.money.realDiscountRate;
    const of = (id: string) => list.find((one) => one.id === id)!;
    expect(of("reflectance").everyYears).toBe(2);
    expectClose(
      of("reflectance").mayCost_per_m2!,
      of("reflectance").worth_per_m2_year * presentWorth(2),
      1e-12,
    );
    expect(of("absorptance").everyYears).toBe(20);
    expectClose(
      of("absorptance").mayCost_per_m2!,
      of("absorptance").worth_per_m2_year * presentWorth(20),
      1e-12,
    );
  });

  it("has no figure at the sizes of typical days, nor where nothing is built", () => {
    expect(sized(study, "typical-days").collectors[0]!.improvements).toBeNull();
    const none = filmStudy((collector) => {
      collector.size = { choice: "fixed", fixed: 0 };
    });
    expect(sized(none).collectors[0]!.improvements).toBeNull();
  });

  it("takes an improvement away where nothing is left to improve, and never passes what is perfect", () => {
    for (const { body } of collectorRecords) {
      const collector = {
        ...body,
        id: "c",
        networks: ["k"],
        existing_m2: 0,
        size: { choice: "free" as const },
      };
      for (const { from, to, unit } of improvements(collector)) {
        expect(to).not.toBe(from);
        if (unit === "1") expect(to).toBeLessThanOrEqual(1);
        expect(to).toBeGreaterThanOrEqual(0);
      }
    }
    const used = filmStudy((collector) => {
      Object.assign(collector, {
        soiling: { lossPerDay: 0.004, washEvery_days: 20 },
        availability: 0.995,
      });
    }).collectors[0]!;
    const ofUse = improvements(used).filter(({ id }) => id === "soiling" || id === "availability");
    expect(ofUse.map(({ id }) => id)).toEqual(["soiling", "availability"]);
    expectClose(ofUse[0]!.to, 0.0036, 1e-12);
    expect(ofUse[1]!.to).toBe(1);
    const nearly = filmStudy((collector) => {
      Object.assign(collector.optics, { reflectance: 0.995, absorptance: 1 });
    }).collectors[0]!;
    const left = improvements(nearly);
    expect(left.find(({ id }) => id === "reflectance")!.to).toBe(1);
    expect(left.some(({ id }) => id === "absorptance")).toBe(false);
  });
});
