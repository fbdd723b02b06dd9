import { beforeAll, describe, expect, it } from "vitest";
import { collectorYear } from "../../../../src/core/collector/collector-year.ts";
import { collectorLevel } from "../../../../src/core/collector/network-levels.ts";
import type { Result } from "../../../../src/core/study/result.ts";
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

const sized = (study: Study, replays: "none" | "simple" = "simple"): Result =>
  sizePlant(plantOf(study), { method: "typical-days", solvers, version: "0", remarks: [], replays }).result;

/** The small study with a film of two years that loses a tenth a year, and no price rises. */
function ageing(change: (study: Study) => void = () => {}): Study {
  const study = smallStudy();
  const collector = study.collectors[0]!;
  collector.ageing_per_year = 0.1;
  collector.filmPart = "Film";
  collector.size = { choice: "fixed", fixed: 2500 };
  study.backups[0]!.fuel.escalation_per_year = 0;
  study.electricity.escalation_per_year = 0;
  study.money.carbonPrice_per_t = 0;
  change(study);
  return study;
}

describe("the years of a film in the cash flow", () => {
  it("alternate with the film's age, as the collector's own yield at that age", () => {
    const study = ageing();
    const result = sized(study);
    const useful = result.collectors[0]!.useful_kWh_per_m2_byYear!;
    expect(useful).toHaveLength(study.money.years);
    expect(useful[0]).toBeGreaterThan(useful[1]!);
    expect(useful[2]).toBe(useful[0]);
    // Mid-month ages of the second year by hand: 1 + (month + ½)/12.
    const model = plantOf(study);
    const filmState = Float64Array.from({ length: 12 }, (_, month) => 1 - 0.1 * (1 + (month + 0.5) / 12));
    const climate = { latitude_deg: study.site.latitude_deg, sun: model.sun, weather: model.weather };
    const second = collectorYear(study.collectors[0]!, climate, [collectorLevel(study.networks[0]!)], {
      filmState,
    });
    expect(useful[1]).toBe(second.levels[0]!.useful_kWh_per_m2);
    const flow = result.replay!.simple.money.cashFlow;
    expect(flow[1]!.avoided).toBeGreaterThan(flow[2]!.avoided);
    expectClose(flow[3]!.avoided, flow[1]!.avoided, 1e-12);
  });

  it("lie about the year of the mean state, so that the worth of the plant hardly moves", () => {
    const { money } = sized(ageing()).replay!.simple;
    const mean = sized(ageing(), "none").money;
    const [, first, second] = money.cashFlow;
    const usual = sized(ageing()).replay!.simple.annual.fuelCostAvoided;
    expect(first!.avoided).toBeGreaterThan(usual);
    expect(second!.avoided).toBeLessThan(usual);
    expect(Math.abs((first!.avoided + second!.avoided) / 2 / usual - 1)).toBeLessThan(0.005);
    expect(mean.cashFlow[1]!.avoided).toBe(mean.cashFlow[2]!.avoided);
  });

  it("add up to the cost avoided over the period, and leave the simple pay-back at the mean state", () => {
    const study = ageing();
    for (const of of [sized(study), sized(study).replay!.simple]) {
      const total = of.money.cashFlow.reduce((all, { avoided }) => all + avoided, 0);
      expectClose(of.money.fuelCostAvoidedOverPeriod, total, 1e-12);
      const { cashFlow: flow, initialCapital } = of.money;
      const replaced = flow.reduce((all, { replacements }) => all + replacements, 0) / study.money.years;
      const payback = initialCapital / (of.annual.fuelCostAvoided - flow[1]!.upkeep - replaced);
      expectClose(of.money.simplePayback_years!, payback, 1e-9);
    }
  });

  // By hand: a field that stands already ages with and without the new plant, so buying nothing avoids nothing.
  it("leave out the age of fields that exist already, which today's plant has too", () => {
    const nothing = sized(
      ageing((study) => {
        study.collectors[0]!.existing_m2 = 2500;
        study.collectors[0]!.size = { choice: "fixed", fixed: 0 };
        study.stores[0]!.size = { choice: "fixed", fixed: 0 };
      }),
    ).replay!.simple;
    for (const { avoided } of nothing.money.cashFlow) expect(Math.abs(avoided)).toBeLessThan(0.01);
    expect(Math.abs(nothing.money.npv)).toBeLessThan(0.1);
  });

  it("of a field beside an existing one move by no more than its own yield, every kWh burnt instead", () => {
    const study = ageing((one) => {
      one.collectors[0]!.existing_m2 = 1500;
      one.collectors[0]!.size = { choice: "fixed", fixed: 500 };
      one.stores[0]!.size = { choice: "fixed", fixed: 0 };
    });
    const result = sized(study);
    const [young, old] = result.collectors[0]!.useful_kWh_per_m2_byYear!;
    const { fuel, efficiency } = study.backups[0]!;
    const most = (500 * (young! - old!) * fuel.price_per_kWh) / efficiency;
    const [, first, second] = result.replay!.simple.money.cashFlow;
    expect(first!.avoided - second!.avoided).toBeGreaterThan(-most);
    expect(first!.avoided - second!.avoided).toBeLessThan(most);
  });

  it("are those of the mean state where nothing ages, and nobody is told of years then", () => {
    const result = sized(
      ageing((study) => {
        study.collectors[0]!.ageing_per_year = 0;
      }),
    );
    expect(result.collectors[0]!.useful_kWh_per_m2_byYear).toBeNull();
    expect(result.collectors[0]!.filmLives).toBeNull();
    const flow = result.money.cashFlow;
    expect(new Set(flow.slice(1).map(({ avoided }) => avoided)).size).toBe(1);
  });

  it("tells useful heat for other lives of the film: less the longer it is kept", () => {
    const { filmLives, useful_kWh_per_m2 } = sized(ageing()).collectors[0]!;
    const { life_years, useful_kWh_per_m2: useful } = filmLives!;
    expect(life_years).toContain(2);
    expect(life_years.every((life) => life < 10)).toBe(true);
    expect(useful[life_years.indexOf(2)]).toBe(useful_kWh_per_m2);
    for (let i = 1; i < useful.length; i += 1) expect(useful[i]).toBeLessThan(useful[i - 1]!);
  });
});
