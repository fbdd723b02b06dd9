import { beforeAll, describe, expect, it } from "vitest";
import { presentWorthGrowing } from "../../../src/core/economics/annuity.ts";
import { constantYear } from "../../../src/core/series.ts";
import type { Result } from "../../../src/core/study/result.ts";
import { sizePlant } from "../../../src/core/study/size-plant.ts";
import { breakEvens } from "../../../src/core/sureness/break-even.ts";
import { type Evaluator, evaluator } from "../../../src/core/sureness/evaluator.ts";
import { oneAtATime, twoWay } from "../../../src/core/sureness/one-at-a-time.ts";
import { inputRanges } from "../../../src/core/sureness/uncertain-inputs.ts";
import { loadSolvers } from "../../../src/solver/solvers.ts";
import { expectClose } from "../../support/close.ts";
import { plantOf } from "../../support/small-plant.ts";
import { smallStudy } from "../../support/small-study.ts";

const study = () => {
  const one = smallStudy();
  one.collectors[0]!.ageing_per_year = 0;
  return one;
};
let result: Result;
let at: Evaluator;
beforeAll(async () => {
  const model = plantOf(study());
  result = sizePlant(model, {
    method: "typical-days",
    solvers: await loadSolvers(),
    version: "0",
    remarks: [],
  }).result;
  const hours = {
    study: model.study,
    weather: model.weather,
    loads: model.loads,
    electricityPrice_per_kWh: constantYear(0.1),
    fuelPrices_per_kWh: [constantYear(0.07)],
  };
  at = evaluator([hours], result);
});

describe("evaluator(years, answer)", () => {
  it("gives the promise's own figures where nothing varies", () => {
    const base = at({});
    const { annual, money, levelised } = result.replay!.simple;
    expectClose(base.fuelCostAvoided, annual.fuelCostAvoided, 1e-9);
    expectClose(base.npv, money.npv, 1e-9);
    expectClose(base.annualCost, levelised.annualCost, 1e-9);
    expectClose(base.solarHeat_per_kWh!, levelised.solarHeat_per_kWh!, 1e-9);
    expectClose(base.solarFraction, annual.solarFraction, 1e-9);
  });

  it("is the same at new prices with the collectors' year kept as with it made anew", () => {
    for (const variation of [
      { "fuel-price": 1.3 },
      { "electricity-price": 0.5 },
      { "discount-rate": 0.02 },
      { "store-price": 2 },
    ]) {
      const kept = at(variation);
      const anew = at({ ...variation, demand: 1 });
      expectClose(kept.npv, anew.npv, 1e-9);
      expectClose(kept.fuelCostAvoided, anew.fuelCostAvoided, 1e-9);
    }
  });

  it("never avoids less at a dearer fuel, under more sun or with less heat lost, and never pays better for dearer parts", () => {
    const rising = [0.5, 0.8, 1, 1.2, 2];
    const along = (
      input: "fuel-price" | "sunshine" | "heat-loss" | "collector-price",
      of: "npv" | "fuelCostAvoided",
    ) => rising.map((factor) => at({ [input]: factor })[of]);
    const isRising = (values: number[]) =>
      values.every((value, i) => i === 0 || value >= values[i - 1]! - 1e-6);
    expect(isRising(along("fuel-price", "fuelCostAvoided"))).toBe(true);
    expect(isRising(along("sunshine", "fuelCostAvoided"))).toBe(true);
    expect(isRising(along("heat-loss", "fuelCostAvoided").reverse())).toBe(true);
    expect(isRising(along("collector-price", "npv").reverse())).toBe(true);
  });
});

it("oneAtATime sorts by width, and a range of no width gives the base at both ends", () => {
  const ranges = inputRanges(study());
  expect(ranges.length).toBeGreaterThanOrEqual(12);
  const bars = oneAtATime(ranges.slice(0, 5), at);
  const widths = bars.map(({ atLow, atHigh }) => Math.abs(atHigh.npv - atLow.npv));
  expect(widths).toEqual([...widths].sort((a, b) => b - a));
  const flat = oneAtATime([{ ...ranges[0]!, low: 1, high: 1 }], at)[0]!;
  expectClose(flat.atLow.npv, at({}).npv, 1e-12);
  expect(flat.atHigh).toEqual(flat.atLow);
});

it("twoWay has the base in its middle and one-at-a-time at the ends of its middle lines", () => {
  const [table] = twoWay(inputRanges(study()), at);
  expectClose(table!.npv[2]![2]!, at({}).npv, 1e-9);
  expectClose(table!.npv[0]![2]!, at({ "fuel-price": 0.8 }).npv, 1e-9);
  expectClose(table!.npv[2]![4]!, at({ "collector-price": 1.2 }).npv, 1e-9);
});

it("breakEvens finds the fuel price by hand: the net present value is a line in it", () => {
  const [found] = breakEvens(["fuel-price"], at);
  const base = at({}).npv;
  // Fuel avoided is worth (1 − s)·0 at factor 0, so its slope follows from two values and the zero from the slope.
  const slope = at({ "fuel-price": 2 }).npv - base;
  expectClose(found!.at!, 1 - base / slope, 1e-3);
  expect(slope / presentWorthGrowing(20, 0.02, 0.06)).toBeGreaterThan(0);
});

it("breakEvens says where a plant pays throughout or nowhere", () => {
  const steady = (npv: number) => breakEvens(["film-life"], () => ({ npv }))[0]!;
  expect(steady(5)).toMatchObject({ at: null, remark: "pays-everywhere" });
  expect(steady(-5)).toMatchObject({ at: null, remark: "pays-nowhere" });
});
