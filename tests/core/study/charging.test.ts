import { beforeAll, describe, expect, it } from "vitest";
import { curveSplit, sizesOnLine } from "../../../src/core/study/curve/curve-split.ts";
import { newSizesOf } from "../../../src/core/study/report/new-sizes.ts";
import type { Study } from "../../../src/core/study/schema/study.ts";
import { type Sizing, sizePlant } from "../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../src/solver/solvers.ts";
import { expectClose } from "../../support/close.ts";
import { plantOf } from "../../support/small-plant.ts";
import { smallStudy } from "../../support/small-study.ts";

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});
const size = (study: Study): Sizing =>
  sizePlant(plantOf(study), { method: "typical-days", solvers, version: "0", remarks: [] });

/** The small study whose tank is filled through pumps and an exchanger that cost money. */
function withCharging(choice: { readonly most?: number } = {}): Study {
  const study = smallStudy();
  study.stores[0]!.charging = {
    existing_kW: 100,
    size: choice.most === undefined ? { choice: "free" } : { choice: "bounded", most: choice.most },
    parts: [{ name: "Pumps and exchanger", price_per_unit: 40, life_years: 15, upkeep_per_unit_year: 1 }],
  };
  return study;
}

describe("a charging power with a size of its own", () => {
  it("is chosen, reported, paid for and kept to", () => {
    const study = withCharging();
    const { result, plan } = size(study);
    const [store] = result.sizes.stores;
    const news_kW = plan.sizes.chargers_kW[0]!;
    expect(news_kW).toBeGreaterThan(100);
    expectClose(store!.charge_kW!, 100 + news_kW, 1e-9);
    const most = Math.max(...plan.hours.networks[0]!.charge_kW);
    expect(most).toBeLessThanOrEqual(store!.charge_kW! * (1 + 1e-9));
    const part = result.money.parts.find(({ item }) => item === "Charging of Water tank");
    expectClose(part!.quantity, news_kW, 1e-9);
    // CRF(15 years, 6 %) = 0.1029628 (interest tables).
    expectClose(part!.annualCost, news_kW * (40 * 0.1029628 + 1), 1e-6);
    expectClose(
      result.sizes.initialCapital,
      result.money.parts.reduce((all, { price }) => all + price, 0),
      1e-9,
    );
    expectClose(
      result.levelised.annualCapital,
      result.money.parts.reduce((all, { annualCost }) => all + annualCost, 0),
      1e-9,
    );
    expectClose(newSizesOf(plantOf(study), result.sizes).chargers_kW[0]!, news_kW, 1e-9);
  });

  it("says where its upper bound limits the design", () => {
    const { result, plan } = size(withCharging({ most: 50 }));
    expectClose(plan.sizes.chargers_kW[0]!, 50, 1e-9);
    const limit = result.limits.find(({ what }) => what === "The largest charging power of Water tank");
    expect(limit).toMatchObject({ used: 50, limit: 50, unit: "kW", binding: true });
    expect(limit!.valuePerUnit!).toBeGreaterThan(0);
  });

  it("is null for a store without", () => {
    expect(size(smallStudy()).result.sizes.stores[0]!.charge_kW).toBeNull();
  });

  it("goes with its store along the area curve", () => {
    const model = plantOf(withCharging());
    const { sizes } = size(withCharging()).plan;
    const split = curveSplit(model, sizes);
    const ratio = (sizes.chargers_kW[0]! + 100) / sizes.stores_kWh[0]!;
    for (const factor of [0.5, 2]) {
      const line = sizesOnLine(
        model,
        sizes,
        split,
        2 * split.aperture_m2,
        factor * split.storePerAperture_kWh_m2,
      );
      expectClose(line.stores_kWh[0]!, 2 * factor * sizes.stores_kWh[0]!, 1e-9);
      expectClose(line.chargers_kW[0]! + 100, ratio * line.stores_kWh[0]!, 1e-9);
    }
  });
});
