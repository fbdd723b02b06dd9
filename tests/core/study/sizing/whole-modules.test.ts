import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { collectorFaults } from "../../../../src/core/collector/collector-faults.ts";
import type { Result } from "../../../../src/core/study/result.ts";
import type { Collector, Study } from "../../../../src/core/study/schema/study.ts";
import { sizePlant } from "../../../../src/core/study/size-plant.ts";
import { candidateFields, roundedFields } from "../../../../src/core/study/sizing/module-counts.ts";
import type { Solvers } from "../../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../../src/solver/solvers.ts";
import { expectClose } from "../../../support/close.ts";
import { evenly } from "../../../support/evenly.ts";
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

  it("is not spoken of where no collector comes in modules", () => {
    expect(free.wholeModules).toBeNull();
  });

  it("takes nine modules on land for 9.99999 of them, and ten on land for ten", () => {
    const cover = smallStudy().collectors[0]!.groundCover;
    const onLandFor = (aperture_m2: number) =>
      sized(
        inModules(100, (study) => {
          study.limits.land_m2 = aperture_m2 / cover;
        }),
      );
    const nine = onLandFor(999.999);
    expect(nine.status).toBe("optimal");
    expect(areaOf(nine)).toBeCloseTo(900, 6);
    const ten = onLandFor(1000);
    expect(ten.status).toBe("optimal");
    expect(areaOf(ten)).toBeCloseTo(1000, 6);
  });

  it("takes one module of more than twice the area found where none would cost more", () => {
    const module_m2 = 2.2 * areaOf(free);
    const at = (fixed: number) =>
      sized((study) => {
        study.collectors[0]!.size = { choice: "fixed", fixed };
      }).proof.objective;
    expect(at(module_m2)).toBeLessThan(at(0));
    const result = sized(inModules(module_m2));
    expectClose(areaOf(result), module_m2, 1e-9);
    expectClose(result.wholeModules!.objective, at(module_m2), 1e-6);
  });

  it("costs no more than a module less or more", () => {
    const result = sized(inModules(700));
    const at = (fixed: number) =>
      sized((study) => {
        study.collectors[0]!.size = { choice: "fixed", fixed };
      }).proof.objective;
    const { objective } = result.wholeModules!;
    for (const other of [areaOf(result) - 700, areaOf(result) + 700]) {
      expect(objective).toBeLessThanOrEqual(at(other) * (1 + 1e-6));
    }
  });
});

describe("two collectors in whole modules", () => {
  const twoNetworks = (study: Study) => {
    const [network] = study.networks;
    const [trough] = study.collectors;
    study.networks.push({
      ...network!,
      id: "steam-side",
      name: "Hotter",
      carrier: "thermal-oil",
      supply_C: 170,
      return_C: 140,
    });
    study.loads.push({
      kind: "process-heat",
      id: "fry",
      name: "Frying",
      network: "steam-side",
      heat_kW: { from: "constant", level: 300 },
    });
    study.collectors.push({
      ...trough!,
      id: "second",
      name: "Second",
      networks: ["steam-side"],
      optics: { by: "measured", opticalEfficiency: 0.7 },
      module_m2: 300,
    });
    study.backups.push({ ...study.backups[0]!, id: "second-boiler", network: "steam-side" });
    trough!.module_m2 = 400;
  };

  it("are built in the pair of counts that costs least of all pairs beside the areas found", () => {
    const result = sized(twoNetworks);
    expect(result.status).toBe("optimal");
    const { fields, objective } = result.wholeModules!;
    expect(fields.map(({ id }) => id)).toEqual(["trough", "second"]);
    for (const first of [Math.floor, Math.ceil]) {
      for (const second of [Math.floor, Math.ceil]) {
        const pair = sized((study) => {
          twoNetworks(study);
          study.collectors.forEach((collector, c) => {
            const { free_m2, module_m2 } = fields[c]!;
            const count = (c === 0 ? first : second)(free_m2 / module_m2);
            collector.size = { choice: "fixed", fixed: count * module_m2 };
          });
        });
        expect(objective).toBeLessThanOrEqual(pair.proof.objective * (1 + 1e-6));
      }
    }
  });
});

describe("whole modules of typical days", () => {
  const cover = smallStudy().collectors[0]!.groundCover;
  let before: Result;
  beforeAll(() => {
    before = sized(() => {}, "typical-days");
  });

  it("are whole, the year is run again and the other sizes follow in the days' program", () => {
    const result = sized(inModules(250), "typical-days");
    expect(areaOf(result) / 250).toBeCloseTo(Math.round(areaOf(result) / 250), 9);
    const fixed = sized((study) => {
      study.collectors[0]!.size = { choice: "fixed", fixed: areaOf(result) };
    }, "typical-days");
    // The quick and the exact solver may stop at other ends of a flat optimum.
    expectClose(result.sizes.stores[0]!.capacity_kWh, fixed.sizes.stores[0]!.capacity_kWh, 1e-4);
    expectClose(result.annual.backup_kWh, fixed.annual.backup_kWh, 1e-4);
    expectClose(result.networks[0]!.demand_kWh, result.annual.demand_kWh, 1e-9);
  });

  it("keep the land, or say by how much no count of modules does", () => {
    const kept = sized(
      inModules(100, (study) => {
        study.limits.land_m2 = 1570 / cover;
      }),
      "typical-days",
    );
    expect(kept.status).toBe("optimal");
    expect(areaOf(kept)).toBeCloseTo(1500, 6);
    for (const method of ["typical-days", "full-year"] as const) {
      const broken = sized(
        inModules(2000, (study) => {
          study.collectors[0]!.size = { choice: "bounded", least: 1200, most: 5000 };
          study.limits.land_m2 = 1500 / cover;
        }),
        method,
      );
      expect(broken.status, method).toBe("infeasible");
      const land = broken.conflicts.find(({ what }) => what === "Land");
      expectClose(land!.by, 500 / cover, 1e-6);
      expect(areaOf(broken)).toBeCloseTo(2000, 6);
    }
  });

  it("keep the solar fraction asked for, or what the year reached of it", () => {
    const asked = before.annual.solarFraction - 0.002;
    const unrounded = sized((study) => {
      study.limits.leastSolarFraction = asked;
    }, "typical-days");
    const result = sized(
      inModules(areaOf(before) / 1.4, (study) => {
        study.limits.leastSolarFraction = asked;
      }),
      "typical-days",
    );
    expect(result.annual.solarFraction).toBeGreaterThanOrEqual(
      Math.min(asked, unrounded.annual.solarFraction) - 1e-6,
    );
    expect(result.status).toBe("optimal");
  });

  it("say where the year misses the solar fraction, with the figure after rounding", () => {
    const remarkOf = (result: Result) => result.findings.filter((one) => one.includes("full-year method"));
    const asked = 0.93;
    const result = sized(
      inModules(150, (study) => {
        study.limits.leastSolarFraction = asked;
      }),
      "typical-days",
    );
    const { solarFraction } = result.annual;
    expect(solarFraction).toBeLessThan(asked);
    expect(remarkOf(result)).toHaveLength(1);
    expect(remarkOf(result)[0]).toContain(`reaches a solar fraction of ${solarFraction.toFixed(3)},`);
    expect(result.status).toBe("optimal");
  });
});

describe("roundedFields", () => {
  const network = { id: "a" };
  const modelOf = (areas: readonly number[], module_m2: number, size: Collector["size"]) => {
    const collector = { id: "c", module_m2, size } as Collector;
    return {
      study: { collectors: [collector] } as unknown as Study,
      fields: areas.map(() => ({ collector, network })) as never,
    };
  };
  const areasAndModule = [fc.array(evenly(0, 5000), { minLength: 1, maxLength: 4 }), evenly(5, 400)] as const;

  it("keeps a collector's fields together within its bounds", () => {
    fc.assert(
      fc.property(
        ...areasAndModule,
        fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
        (areas, module_m2, ups) => {
          const total = areas.reduce((all, area) => all + area, 0);
          const least = Math.floor(total / module_m2) * module_m2;
          const most = least + module_m2;
          const rounded = roundedFields(
            modelOf(areas, module_m2, { choice: "bounded", least, most }),
            Float64Array.from(areas),
            areas.map(() => module_m2),
            ups,
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

  it("compares each way once, the nearest first, none a whole module away where the size is free", () => {
    fc.assert(
      fc.property(...areasAndModule, (areas, module_m2) => {
        const candidates = candidateFields(
          modelOf(areas, module_m2, { choice: "free" }),
          Float64Array.from(areas),
          areas.map(() => module_m2),
        );
        const keys = candidates.map((one) => one.join(" "));
        expect(new Set(keys).size).toBe(keys.length);
        expect(keys.length).toBeGreaterThanOrEqual(1);
        candidates[0]!.forEach((area, f) => {
          expect(Math.abs(area - areas[f]!)).toBeLessThanOrEqual(module_m2 * (0.5 + 2e-6));
        });
        for (const one of candidates) {
          one.forEach((area, f) => {
            expect(Math.abs(area - areas[f]!)).toBeLessThan(module_m2 * (1 + 2e-6));
          });
        }
        if (areas.length === 2 && areas.every((a) => (a / module_m2) % 1 > 1e-5)) {
          expect(candidates).toHaveLength(4);
        }
      }),
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
