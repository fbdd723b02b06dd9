import { describe, expect, it } from "vitest";
import type { DispatchCase } from "../../src/core/dispatch/case.ts";
import { cleanAnswer } from "../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../src/core/dispatch/formulate.ts";
import { solveOnce } from "../../src/core/dispatch/program.ts";
import { ProgramBuilder } from "../../src/core/dispatch/program-builder.ts";
import { readPlan } from "../../src/core/dispatch/read-plan.ts";
import { expectClose, expectPrinted } from "../support/close.ts";
import {
  backup,
  collector,
  dispatchCase,
  field,
  freeSize,
  network,
  store,
} from "../support/dispatch-cases.ts";
import { type EverySolver, everySolver } from "../support/every-solver.ts";
import { halfSine, squareWave } from "../support/storage-cases.ts";

/*
 * Storage cases of closed form, checks 8.12 to 8.20 of the project's list: derived by hand from the definitions
 * (the proofs stand beside the checks), no published case but the warehouse.
 */

const solvers = await everySolver();

function solve(problem: DispatchCase, { solver }: EverySolver) {
  const formulation = formulate(problem);
  const answer = solveOnce(solver, formulation.program);
  expect(answer.status).toBe("optimal");
  const plan = readPlan(formulation, cleanAnswer(formulation, answer.primal), answer.rowDual);
  return {
    cost: answer.objective,
    area: plan.sizes.fields_m2[0]!,
    capacity: plan.sizes.stores_kWh[0]!,
    charger: plan.sizes.chargers_kW[0]!,
    mostCharge: plan.hours.networks[0]!.charge_kW.reduce((most, kW) => Math.max(most, kW), 0),
    fuel_kWh: plan.backup_kWh.reduce((all, heat) => all + heat, 0),
    price: plan.hours.networks[0]!.marginal_per_kWh,
  };
}

/** Mean over the hours of a twelve-hour half of the day. */
const meanPrice = (price: Float64Array, from: number) =>
  price.slice(from, from + 12).reduce((all, value) => all + value / 12, 0);

describe.each(solvers)("$solver.name on a square wave of sun against a constant demand", (each) => {
  const { sizeTolerance, costTolerance, hasDuals } = each;

  it("covers the night from a store where storing costs less than fuel", () => {
    // Beyond 2000 m² each m² gives 6 kWh that must be held: 0.12/6 + 0.01 = 0.03 < 0.04, so on to the whole night.
    const { cost, area, capacity, fuel_kWh, price } = solve(squareWave({}), each);
    expectClose(cost, 600, costTolerance);
    expectClose(area, 4000, sizeTolerance);
    expectClose(capacity, 12_000, sizeTolerance);
    expect(Math.abs(fuel_kWh)).toBeLessThanOrEqual(24_000 * sizeTolerance);
    if (!hasDuals) return;
    // Heat costs what it takes to collect it by day and to hold it until night. Means over day and night are
    // unique, 0.02 and 0.03; strong duality gives 12 000·0.02 + 12 000·0.03 = 600.
    expectClose(meanPrice(price, 0), 0.02, sizeTolerance);
    expectClose(meanPrice(price, 12), 0.03, sizeTolerance);
    expectClose(1000 * price.reduce((all, value) => all + value, 0), 600, sizeTolerance);
  });

  it("drops the store where its cost passes fuel less collection", () => {
    // Break-even 0.04 − 0.02 = 0.02 a kWh of store.
    const worth = solve(squareWave({ capacity: 0.0199 }), each);
    expectClose(worth.capacity, 12_000, 10 * sizeTolerance);
    expectPrinted(worth.cost, "718.8");
    const not = solve(squareWave({ capacity: 0.0201 }), each);
    expect(not.capacity).toBeLessThanOrEqual(12_000 * 10 * sizeTolerance);
    expectClose(not.area, 2000, 10 * sizeTolerance);
    expectClose(not.fuel_kWh, 12_000, 10 * sizeTolerance);
    expectClose(not.cost, 720, costTolerance);
    if (hasDuals) expectClose(meanPrice(not.price, 0), 0.02, sizeTolerance);
  });

  it("builds no collector where fuel heat costs less than collected heat", () => {
    const { area, capacity, cost } = solve(squareWave({ fuel: 0.019 }), each);
    expect(area).toBeLessThanOrEqual(2000 * 10 * sizeTolerance);
    expect(capacity).toBeLessThanOrEqual(12_000 * 10 * sizeTolerance);
    expectClose(cost, 456, costTolerance);
  });

  it("pays the loss of charging with more area", () => {
    // A = 2000 + 2000/0.9, cost 0.12·A + 0.01·12 000; night heat 0.02/0.9 + 0.01 = 0.0322222.
    const lossy = (fuel: number) => solve(squareWave({ store: { chargeEfficiency: 0.9 }, fuel }), each);
    const { area, capacity, cost, price } = lossy(0.04);
    expectPrinted(area, "4222.22");
    expectClose(capacity, 12_000, sizeTolerance);
    expectPrinted(cost, "626.6667");
    if (hasDuals) expectPrinted(meanPrice(price, 12), "0.0322222");
    const dropped = lossy(0.032);
    expect(dropped.capacity).toBeLessThanOrEqual(12_000 * 10 * sizeTolerance);
    expectPrinted(dropped.cost, "624.0");
    expectClose(lossy(0.0323).capacity, 12_000, 10 * sizeTolerance);
  });

  it("loses a share of the content in each hour that it is held", () => {
    // One hour of sun, one hour of demand 5 hours later: charge = 1000/keep^5, a day of one charge.
    const keep_per_h = 0.9;
    const sun = new Float64Array(24);
    sun[3] = 1;
    const demand = new Float64Array(24);
    demand[8] = 1000;
    const problem = dispatchCase(24, {
      networks: [network("heat", demand)],
      collectors: [collector(0.001)],
      fields: [field(sun)],
      stores: [store(freeSize(0.0001), { keep_per_h })],
      backups: [backup(0.04)],
    });
    expectClose(solve(problem, each).area, 1000 / keep_per_h ** 5, sizeTolerance);
  });
});

// A kW of charging power carries twelve hours of sun into the night: at a cost of c a day it adds c/12 to
// each kWh of night heat, 0.03 without it against fuel at 0.04; derived by hand.
describe.each(solvers)("$solver.name on a charging power with a price of its own", (each) => {
  const { sizeTolerance, costTolerance } = each;

  it.each([0, 400])("builds it as far as the night needs it, what exists first: %i kW", (existing) => {
    const found = solve(squareWave({ store: { charger: { ...freeSize(0.06), existing } } }), each);
    expectClose(found.cost, 600 + 0.06 * (1000 - existing), costTolerance);
    expectClose(found.charger, 1000 - existing, sizeTolerance);
    expectClose(found.mostCharge, 1000, sizeTolerance);
  });

  it("leaves it out above its break-even cost of 0.12", () => {
    const dear = solve(squareWave({ store: { charger: freeSize(0.1201) } }), each);
    expect(dear.capacity).toBeLessThanOrEqual(12_000 * 10 * sizeTolerance);
    expectClose(dear.cost, 720, costTolerance);
    const cheap = solve(squareWave({ store: { charger: freeSize(0.1199) } }), each);
    expectClose(cheap.cost, 600 + 119.9, costTolerance);
  });

  it("keeps to it beside a fixed limit on charging, whichever is less", () => {
    const fixed = { ...freeSize(0.06), least: 500, most: 500 };
    expectClose(solve(squareWave({ store: { charger: fixed } }), each).mostCharge, 500, sizeTolerance);
    const both = solve(squareWave({ store: { charger: fixed, chargeLimit_kW: 200 } }), each);
    expectClose(both.mostCharge, 200, sizeTolerance);
    // 200 kW through the day serve 200 kW of night at 0.03; 500 kW of charger are paid all the same.
    expectClose(both.cost, 720 - 12 * 200 * 0.01 + 0.06 * 500, costTolerance);
  });
});

describe.each(solvers)("$solver.name on a half-sine of sun without a store", (each) => {
  /** Fuel of the twelve dark hours, which the program leaves out. */
  const night = 12 * 1000 * 0.04;
  const cases: [number, string, string][] = [
    [12, "1804.0", "850.63"],
    [120, "1776.47", "852.185"],
    [1200, "1775.61", "852.2003"],
  ];

  it.each(cases.filter(([steps]) => steps <= each.mostBlocks))(
    "comes to the area at which the last square metre's unsaturated yield pays for it, in %i steps",
    (steps, area, cost) => {
      // (24·g0/π)(1 − cos θ) = cA/f, sin θ = D/(A·g0): A 1776.04 m², cost 852.200; figures of the steps from the same derivation.
      const cosine = 1 - (Math.PI * 0.12) / (24 * 0.6 * 0.04);
      expectPrinted(1000 / (0.6 * Math.sqrt(1 - cosine ** 2)), "1776.04");
      const found = solve(halfSine(steps), each);
      expectPrinted(found.area, area);
      expectPrinted(found.cost + night, cost);
    },
  );
});

describe.each(solvers)("$solver.name on the warehouse problem", ({ solver, costTolerance }) => {
  it("buys cheap, sells dear and earns 1200", () => {
    // Cahn 1948; Charnes & Cooper 1955 (statement from memory, figures own, worked by hand): capacity 100, opening
    // stock 50, sales out of the opening stock of each of four periods: 300 − 500 + 800 − 300 + 900.
    const buy = [5, 7, 3, 6];
    const sell = [6, 8, 4, 9];
    const infinity = Number.POSITIVE_INFINITY;
    const builder = new ProgramBuilder();
    const families = ["bought", "sold", "stock"].map((stem) => builder.family(stem));
    const rows = ["balance", "sales"].map((stem) => builder.family(stem));
    const stocks: number[] = [];
    buy.forEach((price, t) => {
      const bought = builder.column(families[0]!, t, price, 0, infinity);
      const sold = builder.column(families[1]!, t, -sell[t]!, 0, infinity);
      const stock = builder.column(families[2]!, t, 0, 0, 100);
      stocks.push(stock);
      const opening = t === 0 ? 50 : 0;
      const balance = builder.row(rows[0]!, t, opening, opening);
      builder.entry(balance, stock, 1);
      builder.entry(balance, bought, -1);
      builder.entry(balance, sold, 1);
      const sales = builder.row(rows[1]!, t, -infinity, opening);
      builder.entry(sales, sold, 1);
      if (t === 0) return;
      builder.entry(balance, stocks[t - 1]!, -1);
      builder.entry(sales, stocks[t - 1]!, -1);
    });
    const answer = solveOnce(solver, builder.assemble("warehouse"));
    expectClose(answer.objective, -1200, costTolerance);
    stocks.forEach((column, t) => {
      expect(Math.abs(answer.primal[column]! - [100, 0, 100, 0][t]!)).toBeLessThanOrEqual(1e-3);
    });
  });
});
