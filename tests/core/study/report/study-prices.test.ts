import { beforeAll, describe, expect, it } from "vitest";
import { levelisationFactor } from "../../../../src/core/economics/annuity.ts";
import { annualCostPerUnit } from "../../../../src/core/economics/part-cost.ts";
import { seasonHourMeans } from "../../../../src/core/study/report/season-hours.ts";
import type { Study } from "../../../../src/core/study/schema/study.ts";
import { type Sizing, sizePlant } from "../../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../../src/core/study/sizing/solvers.ts";
import { loadHighs } from "../../../../src/solver/highs.ts";
import { interiorPoint } from "../../../../src/solver/interior-point/interior-point.ts";
import { expectClose } from "../../../support/close.ts";
import { plantOf } from "../../../support/small-plant.ts";
import { smallStudy } from "../../../support/small-study.ts";

let solvers: Solvers;
beforeAll(async () => {
  const highs = await loadHighs();
  solvers = { quick: highs, exact: highs, engine: interiorPoint };
});
const size = (study: Study, method: "typical-days" | "full-year" = "typical-days"): Sizing =>
  sizePlant(plantOf(study), { method, solvers, version: "0", remarks: [] });

const entryOf = ({ result }: Sizing, kind: string) =>
  result.prices!.entries.find((entry) => entry.kind === kind)!;
const sum = (values: Float64Array) => values.reduce((all, value) => all + value, 0);

describe("the prices of a study", () => {
  it("give plant held at nothing the worth of its first unit, in closed form", () => {
    const study = smallStudy();
    study.collectors[0]!.size = { choice: "fixed", fixed: 0 };
    study.stores[0]!.size = { choice: "fixed", fixed: 0 };
    const sizing = size(study, "full-year");
    const { prices } = sizing.result;
    const model = plantOf(study);
    // The first m² saves the boiler's heat in every hour that it yields, and pays for its pumps.
    const boiler = (0.07 / 0.85) * levelisationFactor(20, 0.02, 0.06);
    const [field] = model.problem.fields;
    const yearly_kWh = sum(field!.yield_kW_per_m2);
    const pumps = sum(field!.parasitic_kW_per_m2) * model.prices.electricity.levelised_per_kWh[0]!;
    const annual = annualCostPerUnit(study.collectors[0]!.parts, 0.06);
    const aperture = entryOf(sizing, "aperture");
    expect(aperture).toMatchObject({ state: "fixed", size: 0, network: "hot-water", unit: "m²" });
    expectClose(aperture.annualCost_per_unit!, annual, 1e-12);
    expectClose(aperture.value_per_unit!, boiler * yearly_kWh - pumps - annual, 1e-6);
    expect(aperture.sentence).toMatch(/^Fixed smaller than pays: one more m² would save [\d.]+ XTS a year/);
    // Without sun to keep, a store is its price's loss.
    const store = entryOf(sizing, "store");
    expectClose(store.value_per_unit!, -annualCostPerUnit(study.stores[0]!.parts, 0.06), 1e-6);
    // Every kWh more is the boiler's.
    expect(prices!.program).toBe("full-year");
    const [heat] = prices!.heat!;
    expectClose(heat!.mean_per_kWh, boiler, 1e-9);
    for (const season of heat!.bySeasonAndHour_per_kWh) {
      expect(season).toHaveLength(24);
      for (const price of season) expectClose(price, boiler, 1e-9);
    }
  });

  it("name the price at which an unbuilt collector starts to pay, all its parts changed alike", () => {
    const dear = (factor: number) => {
      const study = smallStudy();
      for (const part of study.collectors[0]!.parts) {
        part.price_per_unit *= factor;
        part.upkeep_per_unit_year *= factor;
      }
      return study;
    };
    const sizing = size(dear(20));
    const entry = entryOf(sizing, "aperture");
    expect(entry.state).toBe("unbuilt");
    const { factor, initialPrice_per_unit, annualCost_per_unit } = entry.entry!;
    expectClose(initialPrice_per_unit, 20 * 84 * factor, 1e-9);
    expectClose(annualCost_per_unit, entry.annualCost_per_unit! * factor, 1e-9);
    expectClose(entry.value_per_unit!, annualCost_per_unit - entry.annualCost_per_unit!, 1e-9);
    expect(size(dear(20 * factor * 1.001)).result.sizes.collectors[0]!.aperture_m2).toBe(0);
    expect(size(dear(20 * factor * 0.99)).result.sizes.collectors[0]!.aperture_m2).toBeGreaterThan(10);
    expect(entry.sentence).toMatch(/^Not built: it would start to pay at [\d.]+ XTS per m²/);
  });

  it("agree with the limits' figures and say nothing of heat on typical days", () => {
    const study = smallStudy();
    study.collectors[0]!.size = { choice: "bounded", most: 400 };
    study.limits = { land_m2: 5000 };
    const sizing = size(study);
    const aperture = entryOf(sizing, "aperture");
    const bound = sizing.result.limits.find(({ what }) => what.includes("largest aperture"))!;
    expect(aperture.state).toBe("at its limit");
    expectClose(aperture.value_per_unit!, bound.valuePerUnit!, 1e-12);
    expect(aperture.value_per_unit).toBeGreaterThan(0);
    expect(entryOf(sizing, "land")).toMatchObject({ state: "within its limit", value_per_unit: 0 });
    expect(sizing.result.prices!.heat).toBeNull();
  });

  it("say of land that binds what it is worth, and that the collector pays for it", () => {
    const study = smallStudy();
    study.limits = { land_m2: 1000 };
    const sizing = size(study);
    const land = entryOf(sizing, "land");
    expect(land.state).toBe("at its limit");
    expectClose(land.value_per_unit!, sizing.result.limits[0]!.valuePerUnit!, 1e-12);
    const aperture = entryOf(sizing, "aperture");
    expect(aperture).toMatchObject({ state: "built", rationed: true, value_per_unit: 0 });
    study.limits = { land_m2: 1001 };
    const saved = sizing.result.proof.objective - size(study).result.proof.objective;
    expectClose(land.value_per_unit! / saved, 1, 1e-3);
  });

  it("give the largest aperture of a collector on two networks its price", () => {
    const study = smallStudy();
    study.networks.push({
      ...study.networks[0]!,
      id: "warm",
      name: "Warm water",
      supply_C: 60,
      return_C: 40,
    });
    study.loads.push({
      ...structuredClone(study.loads[0]!),
      id: "rinse",
      name: "Rinsing",
      network: "warm",
    } as Study["loads"][number]);
    study.backups.push({
      ...structuredClone(study.backups[0]!),
      id: "other",
      name: "Other",
      network: "warm",
    });
    const [collector] = study.collectors;
    collector!.networks = ["hot-water", "warm"];
    const at = (most: number) => {
      collector!.size = { choice: "bounded", most };
      return size(study);
    };
    const sizing = at(300);
    const bound = sizing.result.limits.find(({ what }) => what.includes("largest aperture"))!;
    const built = sizing.result.prices!.entries.filter(({ state }) => state === "at its limit");
    expect(built.length).toBeGreaterThan(0);
    expectClose(built[0]!.value_per_unit!, bound.valuePerUnit!, 1e-9);
    const saved = sizing.result.proof.objective - at(301).result.proof.objective;
    expectClose(bound.valuePerUnit! / saved, 1, 1e-3);
  });

  it("are left out where limits conflict, since penalties would stand in them", () => {
    const study = smallStudy();
    study.backups[0]!.existing_kW = 300;
    study.collectors[0]!.size = { choice: "fixed", fixed: 0 };
    study.stores[0]!.size = { choice: "fixed", fixed: 0 };
    const { result } = size(study);
    expect(result.status).toBe("infeasible");
    expect(result.prices).toBeNull();
  });
});

describe("means by season and hour", () => {
  it("weigh hours by demand, and alike where there is none", () => {
    const values = Float64Array.from({ length: 8760 }, (_, t) => (t < 24 ? 10 : 1));
    const weights = new Float64Array(8760);
    weights[5] = 3;
    weights[29] = 1;
    const [winter, spring] = seasonHourMeans(values, weights);
    expect(winter![5]).toBe((3 * 10 + 1) / 4);
    expectClose(winter![6]!, (10 + 89) / 90, 1e-12);
    expect(spring![5]).toBe(1);
  });
});
