import { beforeAll, describe, expect, it } from "vitest";
import type { DispatchCase } from "../../../src/core/dispatch/case.ts";
import { cleanAnswer } from "../../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { readPlan } from "../../../src/core/dispatch/read-plan.ts";
import { verify } from "../../../src/core/dispatch/verify.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { expectClose } from "../../support/close.ts";
import {
  backup,
  collector,
  dispatchCase,
  existingSize,
  field,
  freeSize,
  network,
  noLimits,
  store,
} from "../../support/dispatch-cases.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

function solve(problem: DispatchCase) {
  const formulation = formulate(problem);
  const answer = solveOnce(highs, formulation.program);
  expect(answer.status).toBe("optimal");
  const cleaned = cleanAnswer(formulation, answer.primal);
  const plan = readPlan(formulation, cleaned, answer.rowDual);
  return { formulation, answer, cleaned, plan };
}

/** Twelve hours of sun at 0.5 kW/m² against 1000 kW day and night; all by hand: 1 m² gives 6 kWh a day. */
const plain = dispatchCase(24, {
  networks: [network("heat", new Float64Array(24).fill(1000))],
  collectors: [collector(0.12, { initialCost_per_m2: 60 })],
  fields: [field(new Float64Array(24).fill(0.5, 0, 12))],
  stores: [store(freeSize(0.01, 10))],
  backups: [backup(0.04)],
});
const limited = (limits: Partial<DispatchCase["limits"]>): DispatchCase => ({
  ...plain,
  limits: { ...noLimits, ...limits },
});

describe("a limit over the year", () => {
  it("of land binds at land times ground cover, and its price is what a square metre would save", () => {
    // 1500 m² under 3000 m² of land: below 2000 m², a m² saves 6·0.04 − 0.12 = 0.12, half of that a m² of land.
    const { plan, formulation, answer } = solve(limited({ land_m2: 3000 }));
    expectClose(plan.sizes.fields_m2[0]!, 1500, 1e-9);
    expectClose(answer.rowDual![formulation.layout.rows.land]!, -0.06, 1e-9);
    expect(plan.stretch).toEqual({ land_m2: 0, budget: 0, fraction_kWh: 0 });
  });

  it("of the budget binds on initial capital alone", () => {
    // Below 2000 m² each 60 of capital saves 0.12: 0.002 a unit.
    const { plan, formulation, answer } = solve(limited({ budget: 60_000 }));
    expectClose(plan.sizes.fields_m2[0]!, 1000, 1e-9);
    expectClose(answer.rowDual![formulation.layout.rows.budget]!, -0.002, 1e-9);
  });

  it("of the least solar fraction is kept beyond what cost alone would build", () => {
    // Store at 0.03 a kWh never pays; half the heat is the day's, so 0.75 needs 6000 kWh of the night held.
    const dear = { ...plain, stores: [store(freeSize(0.03, 10))] };
    const free = solve(dear);
    expectClose(free.plan.sizes.stores_kWh[0]!, 0, 1e-9);
    const { plan } = solve({ ...dear, limits: { ...noLimits, leastSolarFraction: 0.75 } });
    expectClose(plan.sizes.stores_kWh[0]!, 6000, 1e-9);
    expectClose(plan.backup_kWh[0]!, 6000, 1e-9);
  });

  it("that cannot be kept is stretched by the least amount", () => {
    // 1000 m² give 6000 of 24 000 kWh; nine tenths are asked for: 15 600 kWh too few.
    const { plan } = solve(limited({ land_m2: 2000, leastSolarFraction: 0.9 }));
    expectClose(plan.sizes.fields_m2[0]!, 1000, 1e-6);
    expectClose(plan.stretch.fraction_kWh, 15_600, 1e-6);
    expect(plan.stretch.land_m2).toBe(0);
  });
});

describe("cold made from surplus sun", () => {
  /** Free surplus sun, a chiller of 400 kW and a leaky cold store; ten kilowatts of cold are wanted. */
  const cooled = (leastSolarFraction: number | null): DispatchCase =>
    dispatchCase(12, {
      networks: [network("heat", new Float64Array(12).fill(100))],
      collectors: [collector(0)],
      fields: [field(Float64Array.of(1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0), { existing_m2: 2000, most_m2: 0 })],
      stores: [
        store(existingSize(1000), {
          serves: { cold: 0 },
          chargeEfficiency: 0.5,
          dischargeEfficiency: 0.5,
          keep_per_h: 0.9,
        }),
      ],
      cold: [
        {
          id: "cool",
          demand_kW: new Float64Array(12).fill(10),
          electricCop: new Float64Array(12).fill(3),
          electricLimit_kW: Number.POSITIVE_INFINITY,
        },
      ],
      chillers: [
        {
          id: "chiller",
          cold: 0,
          network: 0,
          cop: new Float64Array(12).fill(0.7),
          capacityFactor: new Float64Array(12).fill(1),
          electricity_kWh_per_kWh: 0,
          size: existingSize(400),
        },
      ],
      backups: [backup(0.04)],
      tieBreak_per_kWh: 1e-6,
      limits: { ...noLimits, leastSolarFraction },
    });

  it("cannot raise the solar fraction by being wasted in a store", () => {
    // The six dark hours burn 600 kWh. Heat for cold that is used is 60/0.7 by day and at most 60/0.7 for the night.
    const { plan } = solve(cooled(0.9));
    const honest_kWh = 1200 + 120 / 0.7;
    expect(plan.stretch.fraction_kWh).toBeGreaterThanOrEqual(600 - 0.1 * honest_kWh - 1e-6);
  });

  it("closes its balance in every hour of a cleaned answer", () => {
    for (const fraction of [null, 0.5, 0.9]) {
      const { plan, formulation, cleaned } = solve(cooled(fraction));
      const [cold] = plan.hours.cold;
      for (let t = 0; t < 12; t += 1) {
        const supply = cold!.absorption_kW[t]! + cold!.electric_kW[t]! + cold!.discharge_kW[t]!;
        expectClose(supply - cold!.charge_kW[t]!, 10, 1e-9);
        expect(Math.min(cold!.charge_kW[t]!, cold!.discharge_kW[t]!)).toBe(0);
      }
      expect(verify(formulation.program, cleaned, null).primalResidual).toBeLessThan(1e-6);
    }
  });

  it("is taken from the chiller where an answer charges and discharges at once", () => {
    const formulation = formulate(cooled(null));
    const { layout } = formulation;
    const x = solveOnce(highs, formulation.program).primal;
    // 40 kW in and 20 kW out of the store leave its content alone and cost 30 kW of cold.
    x[layout.charge[0]![2]!]! += 40;
    x[layout.discharge[0]![2]!]! += 20;
    x[layout.chilled[0]![2]!]! += 30;
    x[layout.solar[0]![2]!]! += 30 / 0.7;
    const dirty = verify(formulation.program, x, null);
    expect(dirty.primalResidual).toBeLessThan(1e-6);
    const cleaned = cleanAnswer(formulation, x);
    expect(verify(formulation.program, cleaned, null).primalResidual).toBeLessThan(1e-6);
    const plan = readPlan(formulation, cleaned, null);
    expectClose(
      plan.hours.cold[0]!.absorption_kW[2]! +
        plan.hours.cold[0]!.discharge_kW[2]! -
        plan.hours.cold[0]!.charge_kW[2]!,
      10,
      1e-9,
    );
  });
});

describe("the penalty on a stretched budget", () => {
  it("is the same in a currency of a hundredth of the worth", () => {
    const inCents = (problem: DispatchCase): DispatchCase => ({
      ...problem,
      collectors: problem.collectors.map((item) => ({
        ...item,
        annualCost_per_m2: 100 * item.annualCost_per_m2,
        initialCost_per_m2: 100 * item.initialCost_per_m2,
      })),
      stores: [store(freeSize(1, 1000))],
      backups: [backup(new Float64Array(problem.blocks).fill(4))],
      unmetPrice_per_kWh: 100 * problem.unmetPrice_per_kWh,
      limits: { ...problem.limits, budget: 100 * problem.limits.budget! },
    });
    const tight = { ...limited({ budget: 60_000 }), fields: [{ ...plain.fields[0]!, least_m2: 1500 }] };
    const whole = solve(tight);
    const cents = solve(inCents(tight));
    expectClose(whole.plan.stretch.budget, 30_000, 1e-9);
    expectClose(cents.plan.stretch.budget, 3_000_000, 1e-9);
    expectClose(cents.answer.objective, 100 * whole.answer.objective, 1e-9);
  });
});

describe("a boiler that the budget forbids", () => {
  it("leaves heat unmet rather than stretching the budget, whether or not sizes keep their columns", () => {
    const demand_kW = new Float64Array(12).fill(100);
    const problem = dispatchCase(12, {
      networks: [network("n", demand_kW)],
      backups: [backup(0.05, { size: { ...freeSize(1, 50), existing: 20 } })],
      limits: { land_m2: null, budget: 1000, leastSolarFraction: null },
      unmetPrice_per_kWh: 50,
    });
    const objectives = [false, true].map(
      (keepSizeColumns) => solveOnce(highs, formulate(problem, { keepSizeColumns }).program).objective,
    );
    // 20 kW are there and 1000 buy 20 more: 60 kW lack for 12 hours at 50 a kWh.
    expectClose(objectives[0]!, 20 + 12 * (40 * 0.05 + 60 * 50), 1e-9);
    expectClose(objectives[1]!, objectives[0]!, 1e-9);
  });
});
