import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { atSizes, type DispatchCase, unlimited } from "../../../src/core/dispatch/case.ts";
import { cleanAnswer } from "../../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { joinYears } from "../../../src/core/dispatch/join-years.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { readPlan } from "../../../src/core/dispatch/read-plan.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { expectClose } from "../../support/close.ts";
import {
  anyCase,
  backup,
  collector,
  dispatchCase,
  field,
  freeSize,
  network,
  store,
} from "../../support/dispatch-cases.ts";
import { staircaseFaults } from "../../support/staircase-faults.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

const runs = { numRuns: Number(process.env.RUNS ?? 40) };

function solve(problem: DispatchCase) {
  const formulation = formulate(problem);
  const answer = solveOnce(highs, formulation.program);
  expect(answer.status).toBe("optimal");
  const plan = readPlan(formulation, cleanAnswer(formulation, answer.primal), answer.rowDual);
  return { objective: answer.objective, plan, formulation };
}

/** The year with other sun and other fuel prices. */
const other = (year: DispatchCase, sun: number, fuel: number): DispatchCase => ({
  ...year,
  fields: year.fields.map((item) => ({
    ...item,
    yield_kW_per_m2: item.yield_kW_per_m2.map((heat) => sun * heat),
  })),
  backups: year.backups.map((item) => ({
    ...item,
    heatPrice_per_kWh: item.heatPrice_per_kWh.map((price) => fuel * price),
  })),
});

describe("joinYears(cases, shares)", () => {
  it("of one year several times costs what the year costs", () => {
    fc.assert(
      fc.property(anyCase(), fc.constantFrom([1], [0.5, 0.5], [0.2, 0.3, 0.5]), (year, shares) => {
        const joined = joinYears(
          shares.map(() => year),
          shares,
        );
        const { objective } = solve(joined);
        const alone = solve(year).objective;
        expect(Math.abs(objective - alone)).toBeLessThanOrEqual(1e-7 * (1 + Math.abs(alone)));
        expect(staircaseFaults(joined, formulate(joined).program)).toEqual([]);
      }),
      runs,
    );
  });

  it("of different years costs at least what each would with sizes of its own, and what it says at its own sizes", () => {
    let dearer = 0;
    fc.assert(
      fc.property(anyCase(), fc.double({ min: 0.1, max: 0.9, noNaN: true }), (given, share) => {
        const year = unlimited(given);
        const years = [year, other(year, 0.5, 1.5)];
        const shares = [share, 1 - share];
        const { objective, plan } = solve(joinYears(years, shares));
        const expected = (of: (problem: DispatchCase) => DispatchCase) =>
          years.reduce((all, problem, y) => all + shares[y]! * solve(of(problem)).objective, 0);
        const scale = 1 + Math.abs(objective);
        const foreknown = expected((problem) => problem);
        expect(foreknown - objective).toBeLessThanOrEqual(1e-7 * scale);
        if (objective - foreknown > 1e-4 * scale) dearer += 1;
        expect(Math.abs(expected((problem) => atSizes(problem, plan.sizes)) - objective)).toBeLessThanOrEqual(
          1e-6 * scale,
        );
      }),
      runs,
    );
    // Without a case in which knowing the year pays, the comparison would prove little.
    expect(dearer).toBeGreaterThan(0);
  });

  // One day of 1000 kW with 12 hours of sun at 0.5 kW/m², one without any sun; aperture at 0.12 a m²; fuel at
  // 0.04. By hand: a m² gives 6 kWh a sunny day, worth 0.24, half of it expected: 0.12 is the break-even.
  it("weighs a sunny and a dull year by their shares", () => {
    const day = (sun: number, area: number) =>
      dispatchCase(24, {
        networks: [network("n", new Float64Array(24).fill(1000))],
        collectors: [collector(area)],
        fields: [field(new Float64Array(24).fill(sun, 0, 12))],
        backups: [backup(0.04)],
      });
    const cost = (area: number) => solve(joinYears([day(0.5, area), day(0, area)], [0.5, 0.5]));
    const built = cost(0.119);
    expectClose(built.plan.sizes.fields_m2[0]!, 2000, 1e-9);
    expectClose(built.objective, 960 - 2000 * (0.12 - 0.119), 1e-9);
    const not = cost(0.121);
    expectClose(not.plan.sizes.fields_m2[0]!, 0, 1e-9);
    expectClose(not.objective, 960, 1e-9);
  });

  it("holds the least solar fraction over the expected year", () => {
    const day = (sun: number): DispatchCase => ({
      ...dispatchCase(24, {
        networks: [network("n", new Float64Array(24).fill(1000))],
        collectors: [collector(1)],
        fields: [field(new Float64Array(24).fill(sun, 0, 12))],
        backups: [backup(0.04)],
      }),
      limits: { land_m2: null, budget: null, leastSolarFraction: 0.25 },
    });
    // The sunny year reaches a half by 2000 m², the dull one nothing: a quarter together.
    const { plan } = solve(joinYears([day(0.5), day(0)], [0.5, 0.5]));
    expectClose(plan.sizes.fields_m2[0]!, 2000, 1e-9);
    expectClose(plan.stretch.fraction_kWh, 0, 1e-6);
  });

  it("holds the least solar fraction in each year where that is asked for", () => {
    const day = (sun: number): DispatchCase => ({
      ...dispatchCase(24, {
        networks: [network("n", new Float64Array(24).fill(1000))],
        collectors: [collector(1)],
        fields: [field(new Float64Array(24).fill(sun, 0, 12))],
        backups: [backup(0.04)],
      }),
      limits: { land_m2: null, budget: null, leastSolarFraction: 0.25 },
    });
    // A quarter of 24 MWh in 12 hours of sun: 6000 kWh, of 0.5 kW/m² by 1000 m², of 0.25 kW/m² by 2000 m².
    const { plan, formulation } = solve(
      joinYears([day(0.5), day(0.25)], [0.9, 0.1], { fractionIn: "each-year" }),
    );
    expectClose(plan.sizes.fields_m2[0]!, 2000, 1e-9);
    expect(formulation.layout.yearFractions).toHaveLength(2);
    // A year without sun lacks its 6000 kWh, a tenth of the expected year's.
    const dull = solve(joinYears([day(0.5), day(0)], [0.9, 0.1], { fractionIn: "each-year" })).plan;
    expectClose(dull.stretch.fraction_kWh, 600, 1e-6);
    expectClose(dull.sizes.fields_m2[0]!, 1000, 1e-9);
  });

  it("refuses other plants, shares that are none and missing years", () => {
    const year = dispatchCase(24, {
      networks: [network("n", new Float64Array(24).fill(100))],
      stores: [store(freeSize(0.02))],
      backups: [backup(0.05)],
    });
    const lossy = { ...year, stores: [store(freeSize(0.02), { keep_per_h: 0.99 })] };
    expect(() => joinYears([year, lossy], [0.5, 0.5])).toThrow("DIFFERENT_PLANTS");
    expect(() => joinYears([year, { ...year, backups: [] }], [0.5, 0.5])).toThrow("DIFFERENT_PLANTS");
    expect(() => joinYears([year, { ...year, step_h: 2 }], [0.5, 0.5])).toThrow("DIFFERENT_PLANTS");
    expect(() => joinYears([year, year], [0.5, 0.6])).toThrow("OUT_OF_RANGE");
    expect(() => joinYears([year, year], [1.5, -0.5])).toThrow("OUT_OF_RANGE");
    expect(() => joinYears([year, year], [0.5, Number.NaN])).toThrow("OUT_OF_RANGE");
    expect(() => joinYears([year], [0.5, 0.5])).toThrow("SERIES_LENGTH");
    expect(() => joinYears([], [])).toThrow("SERIES_LENGTH");
  });
});
