import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { collectorFaults } from "../../../../src/core/collector/collector-faults.ts";
import type { Result } from "../../../../src/core/study/result.ts";
import type { Collector, Study } from "../../../../src/core/study/schema/study.ts";
import { sizePlant } from "../../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../../src/core/study/sizing/solvers.ts";
import { roundedFields } from "../../../../src/core/study/sizing/whole-modules.ts";
import { loadSolvers } from "../../../../src/solver/solvers.ts";
import { expectClose } from "../../../support/close.ts";
import { plantOf } from "../../../support/small-plant.ts";
import { smallStudy } from "../../../support/small-study.ts";

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});

function sized(change: (study: Study) => void, method: "full-year" | "typical-days" = "full-year"): Result {
  const study = smallStudy();
  change(study);
  return sizePlant(plantOf(study), { method, solvers, version: "0", remarks: [], replays: "none" }).result;
}
const inModules =
  (module_m2: number, more: (study: Study) => void = () => {}) =>
  (study: Study) => {
    study.collectors[0]!.module_m2 = module_m2;
    more(study);
  };
const areaOf = (result: Result) => result.sizes.collectors[0]!.aperture_m2;

describe("a plant in whole modules", () => {
  let free: Result;
  beforeAll(() => {
    free = sized(() => {});
  });

  it("has a whole number of them, costs no less than the plant before rounding and little more", () => {
    const result = sized(inModules(250));
    const modules = result.wholeModules!;
    const [field] = modules.fields;
    expect(field).toMatchObject({ id: "trough", network: "hot-water", module_m2: 250 });
    expect(Number.isInteger(field!.modules)).toBe(true);
    expectClose(areaOf(result), 250 * field!.modules, 1e-12);
    expectClose(field!.free_m2, areaOf(free), 1e-6);
    expect(Math.abs(areaOf(result) - areaOf(free))).toBeLessThanOrEqual(125 + 1e-6);
    expect(modules.cost_per_year).toBeGreaterThanOrEqual(-1e-6 * free.proof.objective);
    expect(modules.cost_per_year).toBeLessThan(0.01 * free.proof.objective);
    expectClose(modules.objective, free.proof.objective + modules.cost_per_year, 1e-6);
    expect(result.status).toBe("optimal");
  });

  it("agrees with the plant before rounding where modules are tiny", () => {
    const result = sized(inModules(0.01));
    expectClose(areaOf(result), areaOf(free), 1e-5);
    expectClose(result.annual.backup_kWh, free.annual.backup_kWh, 1e-4);
    expect(Math.abs(result.wholeModules!.cost_per_year)).toBeLessThan(1e-4 * free.proof.objective);
  });

  it("is that of a study which fixes this area, dispatch and all", () => {
    const result = sized(inModules(250));
    const fixed = sized((study) => {
      study.collectors[0]!.size = { choice: "fixed", fixed: areaOf(result) };
    });
    expectClose(result.wholeModules!.objective, fixed.proof.objective, 1e-6);
    expectClose(result.annual.backup_kWh, fixed.annual.backup_kWh, 1e-4);
    expectClose(result.sizes.stores[0]!.capacity_kWh, fixed.sizes.stores[0]!.capacity_kWh, 1e-3);
  });

  it("rounds down where more would break the land or the budget, and up where less would miss the sun asked for", () => {
    const cover = smallStudy().collectors[0]!.groundCover;
    const onLand = sized(
      inModules(100, (study) => {
        study.limits.land_m2 = 1570 / cover;
      }),
    );
    expect(areaOf(onLand)).toBeCloseTo(1500, 6);
    expect(onLand.status).toBe("optimal");
    const fraction = free.annual.solarFraction + 0.03;
    const asked = sized(
      inModules(800, (study) => {
        study.limits.leastSolarFraction = fraction;
      }),
    );
    expect(asked.annual.solarFraction).toBeGreaterThanOrEqual(fraction - 1e-6);
    expect(asked.status).toBe("optimal");
    expect(areaOf(asked) / 800).toBeCloseTo(Math.round(areaOf(asked) / 800), 9);
  });

  it("keeps the typical days' other sizes and runs the year again", () => {
    const result = sized(inModules(250), "typical-days");
    const before = sized(() => {}, "typical-days");
    expect(areaOf(result) / 250).toBeCloseTo(Math.round(areaOf(result) / 250), 9);
    expectClose(result.sizes.stores[0]!.capacity_kWh, before.sizes.stores[0]!.capacity_kWh, 1e-9);
    const { annual, networks } = result;
    const heat = annual.demand_kWh - annual.backup_kWh - annual.unmet_kWh;
    expect(heat).toBeGreaterThan(0);
    expectClose(networks[0]!.demand_kWh, annual.demand_kWh, 1e-9);
  });

  it("is not spoken of where no collector comes in modules", () => {
    expect(free.wholeModules).toBeNull();
  });
});

describe("roundedFields", () => {
  const network = { id: "a" };
  it("keeps a collector's fields together within its bounds", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 5000, noNaN: true }), { minLength: 1, maxLength: 4 }),
        fc.double({ min: 5, max: 400, noNaN: true }),
        fc.constantFrom("nearest" as const, "down" as const, "up" as const),
        (areas, module_m2, rounding) => {
          const total = areas.reduce((all, area) => all + area, 0);
          const least = Math.floor(total / module_m2) * module_m2;
          const most = least + module_m2;
          const collector = { id: "c", module_m2, size: { choice: "bounded", least, most } } as Collector;
          const model = {
            study: { collectors: [collector] } as unknown as Study,
            fields: areas.map(() => ({ collector, network })) as never,
          };
          const rounded = roundedFields(
            model,
            Float64Array.from(areas),
            areas.map(() => module_m2),
            rounding,
          );
          const sum = rounded.reduce((all, area) => all + area, 0);
          expect(sum).toBeLessThanOrEqual(most * (1 + 1e-6) + 1e-6);
          expect(sum).toBeGreaterThanOrEqual(least * (1 - 1e-6) - 1e-5);
          for (const area of rounded) {
            expect(area).toBeGreaterThanOrEqual(-1e-9);
            expect(Math.abs(area / module_m2 - Math.round(area / module_m2))).toBeLessThan(1e-9);
          }
        },
      ),
    );
  });
});

describe("faults of modules", () => {
  const messages = (size: Collector["size"], module_m2 = 12) =>
    collectorFaults({ ...smallStudy().collectors[0]!, module_m2, size }, "c").map(
      ({ code, place, message }) => `${code} ${place.path}: ${message}`,
    );

  it("are none where a whole number fits", () => {
    expect(messages({ choice: "free" })).toEqual([]);
    expect(messages({ choice: "fixed", fixed: 120 })).toEqual([]);
    expect(messages({ choice: "bounded", least: 10, most: 12 })).toEqual([]);
    expect(messages({ choice: "fixed", fixed: 0.3 }, 0.1)).toEqual([]);
  });

  it("say what would fit", () => {
    expect(messages({ choice: "fixed", fixed: 125 })).toEqual([
      "COLLECTOR_MODULES c/size/fixed: 125 m² is 10.42 modules of 12 m²; a whole number of modules is allowed, such as 120 m² or 132 m².",
    ]);
    expect(messages({ choice: "bounded", least: 13, most: 20 })).toEqual([
      "COLLECTOR_MODULES c/size/most: Between 13 m² and 20 m² there is no whole number of modules of 12 m²; at most 24 m² or more is needed.",
    ]);
  });
});
