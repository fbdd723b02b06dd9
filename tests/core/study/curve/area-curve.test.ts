import { beforeAll, describe, expect, it } from "vitest";
import { StoppedError } from "../../../../src/core/dispatch/program.ts";
import {
  boundPoint,
  missingBound,
  mostPoints,
  replayCurve,
  withBoundPoint,
} from "../../../../src/core/study/area-curve.ts";
import { boundAtSizes } from "../../../../src/core/study/curve/bound-point.ts";
import { curveSplit, sizesOnLine } from "../../../../src/core/study/curve/curve-split.ts";
import { newSizesOf } from "../../../../src/core/study/report/new-sizes.ts";
import type { AreaCurve, CurvePoint, Result } from "../../../../src/core/study/result.ts";
import type { Study } from "../../../../src/core/study/schema/study.ts";
import { sizePlant } from "../../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../../src/solver/solvers.ts";
import { expectClose } from "../../../support/close.ts";
import { plantOf } from "../../../support/small-plant.ts";
import { smallStudy } from "../../../support/small-study.ts";

/** With dear electricity, a carbon price and a chosen point, so that every term of the cost counts. */
function unevenStudy(): Study {
  const study = smallStudy();
  study.chosenPoint = { aperture_m2: 4000, storePerAperture_kWh_m2: 0.8 };
  study.money.carbonPrice_per_t = 30;
  study.electricity.price_per_kWh = 0.2;
  return study;
}

/** As the others, with boilers that are all new, a dear one with cheap fuel and a cheap one with dear fuel. */
function newBoilers(): Study {
  const study = unevenStudy();
  const [boiler] = study.backups;
  const parts = (price: number) => [
    { name: "Boiler", price_per_unit: price, life_years: 20, upkeep_per_unit_year: 1 },
  ];
  study.backups = [
    { ...boiler!, id: "wood", existing_kW: 0, size: { choice: "free" }, parts: parts(400) },
    {
      ...boiler!,
      id: "oil",
      existing_kW: 0,
      size: { choice: "free" },
      parts: parts(60),
      fuel: { ...boiler!.fuel, price_per_kWh: 0.11 },
    },
  ];
  return study;
}

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});
function sized(study: Study, method: "typical-days" | "full-year" = "typical-days") {
  const model = plantOf(study);
  const options = { method, solvers, version: "0", remarks: [], replays: "simple" } as const;
  const { result } = sizePlant(model, options);
  return { model, result };
}
const allPoints = ({ lines }: AreaCurve) => lines.flatMap(({ points }) => points);

describe("the area curve by replay", () => {
  let model: ReturnType<typeof plantOf>;
  let result: Result;
  let curve: AreaCurve;
  beforeAll(() => {
    ({ model, result } = sized(unevenStudy(), "full-year"));
    curve = replayCurve(model, result);
  });

  it("gives the optimum's plant the figures of the result's own replay", () => {
    const { annual, annualCost } = result.replay!.simple;
    const onLine = curve.lines
      .find(({ storeFactor }) => storeFactor === 1)!
      .points.find(({ aperture_m2 }) => Math.abs(aperture_m2 / curve.optimum.aperture_m2 - 1) < 1e-9)!;
    for (const point of [curve.optimumReplay, onLine]) {
      expect(point.by).toBe("replay");
      expectClose(point.solarFraction, annual.solarFraction, 1e-9);
      expectClose(point.fuelCostAvoided, annual.fuelCostAvoided, 1e-9);
      expectClose(point.annualCost, annualCost, 1e-9);
      expectClose(point.spilled_kWh, annual.spilled_kWh, 1e-9);
      expect(point.unmet_kWh).toBe(annual.unmet_kWh);
    }
  });

  it("gives the optimum as the program sized it the figures of the result", () => {
    expect(curve.optimum).toEqual({
      by: "lp",
      aperture_m2: expect.closeTo(result.sizes.collectors[0]!.aperture_m2, 6),
      store_kWh: expect.closeTo(result.sizes.stores[0]!.capacity_kWh, 6),
      solarFraction: result.annual.solarFraction,
      fuelCostAvoided: result.annual.fuelCostAvoided,
      annualCost: result.levelised.annualCost,
      spilled_kWh: result.annual.spilled_kWh,
      unmet_kWh: result.annual.unmet_kWh,
    });
  });

  it("has at most sixty points by replay, apertures rising to twice the optimum's, more where lines bend", () => {
    const points = allPoints(curve);
    expect(points).toHaveLength(mostPoints);
    expect(mostPoints).toBe(60);
    expect(points.every(({ by }) => by === "replay")).toBe(true);
    expect(curve.lines.map(({ storeFactor }) => storeFactor)).toEqual([0, 0.5, 1, 2]);
    for (const line of curve.lines) {
      const apertures = line.points.map(({ aperture_m2 }) => aperture_m2);
      expect([...apertures].sort((a, b) => a - b)).toEqual(apertures);
      expect(new Set(apertures).size).toBe(apertures.length);
      expectClose(apertures.at(-1)!, 2 * curve.optimum.aperture_m2, 1e-9);
      for (const { aperture_m2, store_kWh } of line.points)
        expectClose(store_kWh, line.storePerAperture_kWh_m2 * aperture_m2, 1e-9);
    }
    // All bend between a quarter and the optimum: the field begins to outgrow the load there.
    const within = (low: number, high: number) =>
      points.filter(
        ({ aperture_m2 }) =>
          aperture_m2 > low * curve.optimum.aperture_m2 && aperture_m2 < high * curve.optimum.aperture_m2,
      ).length;
    expect(within(0.25, 1.25)).toBeGreaterThan(2 * within(1.25, 2));
  });

  it("begins at today's plant", () => {
    for (const { points } of curve.lines) {
      const [first] = points;
      expect(first).toMatchObject({ aperture_m2: 0, store_kWh: 0, solarFraction: 0, spilled_kWh: 0 });
      expectClose(first!.annualCost, result.levelised.annualCostBaseline, 1e-9);
      expect(Math.abs(first!.fuelCostAvoided)).toBeLessThan(1e-9 * result.annual.fuelCostBaseline);
    }
  });

  it("grows in solar fraction with area and with store, and never beats the program at the same sizes", () => {
    for (const { points } of curve.lines)
      for (let i = 1; i < points.length; i += 1)
        expect(points[i]!.solarFraction).toBeGreaterThan(points[i - 1]!.solarFraction - 1e-3);
    const news = newSizesOf(model, result.sizes);
    const split = curveSplit(model, news);
    const solving = { baseline: result.baseline, solver: solvers.engine, watched: {} };
    for (const [line, place] of [
      [0, 5],
      [1, 4],
      [3, 6],
    ] as const) {
      const { storePerAperture_kWh_m2, points } = curve.lines[line]!;
      const point = points[place]!;
      const at = sizesOnLine(model, news, split, point.aperture_m2, storePerAperture_kWh_m2);
      const bound = boundAtSizes(model, at, solving);
      expectClose(bound.store_kWh, point.store_kWh, 1e-9);
      expect(point.solarFraction).toBeLessThanOrEqual(bound.solarFraction + 1e-7);
      expect(point.annualCost).toBeGreaterThanOrEqual(bound.annualCost * (1 - 1e-7));
    }
  });

  it("has a bound that costs no more than any line at its total, and holds the optimum", () => {
    let grown = curve;
    const targets = missingBound(curve);
    expect(targets).toHaveLength(7 + 1);
    expect(targets[0]).toEqual({ at: "total", aperture_m2: expect.closeTo(curve.optimum.aperture_m2, 6) });
    expect(targets.at(-1)).toEqual({ at: "chosen" });
    const some = targets.filter((target, i) => target.at === "chosen" || i === 0 || i === 1 || i === 4);
    for (const target of some)
      grown = withBoundPoint(grown, { target, point: boundPoint(model, result, target, solvers.engine) });
    expect(grown.bound).toHaveLength(3);
    expect(missingBound(grown)).toHaveLength(4);
    for (const point of grown.bound) {
      expect(point.by).toBe("lp");
      for (const other of allPoints(curve)) {
        if (Math.abs(other.aperture_m2 - point.aperture_m2) > 1e-6) continue;
        expect(point.annualCost).toBeLessThanOrEqual(other.annualCost * (1 + 1e-5));
      }
      // Held away from the optimum's total, it costs more.
      const isOptimum = Math.abs(point.aperture_m2 - curve.optimum.aperture_m2) < 1e-6;
      expect(point.annualCost).toBeGreaterThan(curve.optimum.annualCost * (isOptimum ? 1 - 1e-5 : 1.002));
    }
    const [least] = grown.bound.filter(
      ({ aperture_m2 }) => Math.abs(aperture_m2 - curve.optimum.aperture_m2) < 1e-6,
    );
    expectClose(least!.annualCost, curve.optimum.annualCost, 1e-5);
    expectClose(least!.store_kWh, curve.optimum.store_kWh, 1e-2);
    const { chosen, chosenBound } = grown;
    expect(chosen).toMatchObject({ by: "replay", aperture_m2: 4000, store_kWh: 3200 });
    expect(chosenBound!.by).toBe("lp");
    expectClose(chosenBound!.store_kWh, 3200, 1e-9);
    expect(chosenBound!.annualCost).toBeLessThanOrEqual(chosen!.annualCost * (1 + 1e-7));
  });

  it("stops where it is asked to", () => {
    let asked = 0;
    const stop = () => {
      asked += 1;
      return asked > 5;
    };
    expect(() => replayCurve(model, result, stop)).toThrow(StoppedError);
    expect(asked).toBe(6);
  });
});

describe("the area curve of other plants", () => {
  it("lets the new boiler that is cheapest per kW grow where heat would be unmet, and pays for it", () => {
    const { model, result } = sized(newBoilers());
    const curve = replayCurve(model, result);
    const [wood_kW, oil_kW] = result.sizes.backups.map(({ heat_kW }) => heat_kW) as [number, number];
    expect(wood_kW).toBeGreaterThan(0);
    const points = allPoints(curve);
    for (const { unmet_kWh } of points) expect(unmet_kWh).toBeLessThan(1);
    // Without sun 500 kW are wanted in every hour: wood burns at its power, oil gives the rest.
    const [first] = points;
    const perYear = (index: number) => {
      const { annualCost_per_unit } = model.problem.backups[index]!.size;
      return annualCost_per_unit;
    };
    const price = (index: number) => model.problem.backups[index]!.heatPrice_per_kWh[0]!;
    const rest_kW = Math.max(0, 500 - wood_kW);
    expectClose(
      first!.annualCost,
      wood_kW * perYear(0) +
        Math.max(oil_kW, rest_kW) * perYear(1) +
        8760 * ((500 - rest_kW) * price(0) + rest_kW * price(1)),
      1e-9,
    );
  });

  it("draws the best match where nothing pays, and widens what the study bounds", () => {
    const dear = unevenStudy();
    dear.collectors[0]!.parts[0]!.price_per_unit = 5000;
    dear.collectors[0]!.size = { choice: "bounded", most: 1000 };
    const { model, result } = sized(dear);
    const curve = replayCurve(model, result);
    expect(curve.optimum.aperture_m2).toBe(0);
    expect(curve.split).toEqual([{ collector: "trough", network: "hot-water", share: 1 }]);
    const largest = curve.boundAt_m2.at(-1)!;
    expect(largest).toBeGreaterThan(2000);
    const target = { at: "total", aperture_m2: largest } as const;
    const point: CurvePoint = boundPoint(model, result, target, solvers.engine);
    expect(point.aperture_m2).toBe(largest);
    expect(point.solarFraction).toBeGreaterThan(0.5);
    expect(point.annualCost).toBeGreaterThan(result.levelised.annualCost);
    const onLine = curve.lines[2]!.points.at(-1)!;
    expectClose(onLine.aperture_m2, largest, 1e-12);
    expect(point.annualCost).toBeLessThanOrEqual(onLine.annualCost * (1 + 1e-5));
  });
});
