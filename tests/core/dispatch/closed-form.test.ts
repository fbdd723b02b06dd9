import { beforeAll, describe, expect, it } from "vitest";
import type { DispatchCase, StoreCase } from "../../../src/core/dispatch/case.ts";
import { cleanAnswer } from "../../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { readPlan } from "../../../src/core/dispatch/read-plan.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { javascriptLpSolver } from "../../../src/solver/javascript-lp-solver.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import {
  backup,
  collector,
  dispatchCase,
  existingSize,
  field,
  freeSize,
  network,
  store,
} from "../../support/dispatch-cases.ts";

let solvers: LpSolver[];
beforeAll(async () => {
  solvers = [await loadHighs(), javascriptLpSolver];
});

function solve(problem: DispatchCase, solver: LpSolver) {
  const formulation = formulate(problem);
  const answer = solveOnce(solver, formulation.program);
  expect(answer.status).toBe("optimal");
  const plan = readPlan(formulation, cleanAnswer(formulation, answer.primal), answer.rowDual);
  return {
    cost: answer.objective,
    area: plan.sizes.fields_m2[0]!,
    capacity: plan.sizes.stores_kWh[0]!,
    fuel_kWh: plan.backup_kWh.reduce((all, heat) => all + heat, 0),
    price: plan.hours.networks[0]!.marginal_per_kWh,
    network: plan.hours.networks[0]!,
  };
}

/**
 * A day of constant demand and a square wave of sun. Sources of all figures here: derived by hand from
 * the definitions (the proofs stand beside the checks), no published case.
 */
function squareWave(given: {
  readonly fuel?: number;
  readonly area?: number;
  readonly capacity?: number;
  readonly store?: Partial<StoreCase>;
}): DispatchCase {
  const sun = new Float64Array(24).fill(0.5, 0, 12);
  return dispatchCase(24, {
    networks: [network("heat", new Float64Array(24).fill(1000))],
    collectors: [collector(given.area ?? 0.12)],
    fields: [field(sun)],
    stores: [store(freeSize(given.capacity ?? 0.01), given.store)],
    backups: [backup(given.fuel ?? 0.04)],
  });
}

describe("a square wave of sun against a constant demand", () => {
  it("covers the night from a store where storing costs less than fuel", () => {
    // Beyond 2000 m² each m² gives 6 kWh that must be held: 0.12/6 + 0.01 = 0.03 < 0.04, so on to the whole night.
    for (const solver of solvers) {
      const { cost, area, capacity, fuel_kWh } = solve(squareWave({}), solver);
      expectClose(cost, 600, 1e-9);
      expectClose(area, 4000, 1e-9);
      expectClose(capacity, 12_000, 1e-9);
      expectClose(fuel_kWh, 0, 1e-6);
    }
  });

  it("prices heat by what it costs to collect by day and to hold until night", () => {
    // Means over day and night are unique: 0.02 and 0.03; strong duality gives 12 000·0.02 + 12 000·0.03 = 600.
    const { price } = solve(squareWave({}), solvers[0]!);
    const mean = (from: number) => price.slice(from, from + 12).reduce((all, value) => all + value / 12, 0);
    expectClose(mean(0), 0.02, 1e-9);
    expectClose(mean(12), 0.03, 1e-9);
    expectClose(1000 * price.reduce((all, value) => all + value, 0), 600, 1e-9);
  });

  it("drops the store where its cost passes fuel less collection", () => {
    // Break-even 0.04 − 0.02 = 0.02 a kWh of store.
    for (const solver of solvers) {
      const worth = solve(squareWave({ capacity: 0.0199 }), solver);
      expectClose(worth.capacity, 12_000, 1e-9);
      expectPrinted(worth.cost, "718.8");
      const not = solve(squareWave({ capacity: 0.0201 }), solver);
      expectClose(not.capacity, 0, 1e-9);
      expectClose(not.area, 2000, 1e-9);
      expectClose(not.fuel_kWh, 12_000, 1e-9);
      expectClose(not.cost, 720, 1e-9);
      if (not.price.some(Number.isNaN)) continue;
      const day = not.price.slice(0, 12).reduce((all, value) => all + value / 12, 0);
      expectClose(day, 0.02, 1e-9);
    }
  });

  it("builds no collector where fuel heat costs less than collected heat", () => {
    for (const solver of solvers) {
      const { area, capacity, cost } = solve(squareWave({ fuel: 0.019 }), solver);
      expectClose(area, 0, 1e-9);
      expectClose(capacity, 0, 1e-9);
      expectClose(cost, 456, 1e-9);
    }
  });

  it("pays the loss of charging with more area", () => {
    // A = 2000 + 2000/0.9, cost 0.12·A + 0.01·12 000; night heat 0.02/0.9 + 0.01 = 0.0322222.
    const loss = { chargeEfficiency: 0.9 };
    for (const solver of solvers) {
      const { area, capacity, cost } = solve(squareWave({ store: loss }), solver);
      expectPrinted(area, "4222.22");
      expectClose(capacity, 12_000, 1e-9);
      expectPrinted(cost, "626.6667");
      expectClose(solve(squareWave({ store: loss, fuel: 0.032 }), solver).capacity, 0, 1e-9);
      expectPrinted(solve(squareWave({ store: loss, fuel: 0.032 }), solver).cost, "624.0");
      expectClose(solve(squareWave({ store: loss, fuel: 0.0323 }), solver).capacity, 12_000, 1e-9);
    }
    const { price } = solve(squareWave({ store: loss }), solvers[0]!);
    expectPrinted(
      price.slice(12).reduce((all, value) => all + value / 12, 0),
      "0.0322222",
    );
  });

  it("loses a share of the content in each hour that it is held", () => {
    // One hour of sun, one hour of demand n hours later: charge = 1000/keep^n, a day of one charge.
    const keep_per_h = 0.9;
    const sun = new Float64Array(24);
    sun[3] = 1;
    const demand = new Float64Array(24);
    demand[8] = 1000;
    for (const solver of solvers) {
      const { area } = solve(
        dispatchCase(24, {
          networks: [network("heat", demand)],
          collectors: [collector(0.001)],
          fields: [field(sun)],
          stores: [store(freeSize(0.0001), { keep_per_h })],
          backups: [backup(0.04)],
        }),
        solver,
      );
      expectClose(area, 1000 / keep_per_h ** 5, 1e-9);
    }
  });
});

describe("a half-sine of sun without a store", () => {
  /** Midpoints of n steps over twelve hours of sun, as blocks of 12/n hours. */
  function halfSine(steps: number): DispatchCase {
    const sun = Float64Array.from({ length: steps }, (_, n) => 0.6 * Math.sin((Math.PI * (n + 0.5)) / steps));
    return {
      ...dispatchCase(steps, {
        networks: [network("heat", new Float64Array(steps).fill(1000))],
        collectors: [collector(0.12)],
        fields: [field(sun)],
        backups: [backup(0.04)],
      }),
      step_h: 12 / steps,
    };
  }
  /** Fuel of the twelve dark hours. */
  const night = 12 * 1000 * 0.04;

  it("comes to the area at which the last square metre's unsaturated yield pays for it", () => {
    // (24·g0/π)(1 − cos θ) = cA/f, sin θ = D/(A·g0): A 1776.04 m², cost 852.200; figures of N steps from the same derivation.
    const cosine = 1 - (Math.PI * 0.12) / (24 * 0.6 * 0.04);
    const area = 1000 / (0.6 * Math.sqrt(1 - cosine ** 2));
    expectPrinted(area, "1776.04");
    const coarse = solve(halfSine(12), solvers[0]!);
    expectPrinted(coarse.area, "1804.0");
    expectPrinted(coarse.cost + night, "850.63");
    const finer = solve(halfSine(120), solvers[0]!);
    expectPrinted(finer.area, "1776.47");
    expectPrinted(finer.cost + night, "852.185");
    const finest = solve(halfSine(1200), solvers[0]!);
    expectPrinted(finest.area, "1775.61");
    expectPrinted(finest.cost + night, "852.2003");
  });
});

describe("the warehouse problem (Cahn 1948; figures own, worked by hand)", () => {
  it("buys cheap heat, sells dear heat and earns 1200", () => {
    // Capacity 100, opening stock 50. Four periods of two blocks: sell out of stock, then buy. A boiler that may
    // charge buys; what is sold saves the unmet price of a demand of 100 that is worth its selling price.
    const buy = [5, 7, 3, 6];
    const sell = [6, 8, 4, 9];
    const opening = 50;
    // The opening stock is heat that costs nothing and comes only in the first block; the store ends empty at best.
    const blocks = 9;
    const demand = new Float64Array(blocks);
    const at = (period: number) => 1 + 2 * period;
    for (let n = 0; n < 4; n += 1) demand[at(n)] = 100;
    const sun = new Float64Array(blocks);
    sun[0] = 1;
    const solver = solvers[0]!;
    // Prices by block need one boiler a price; each is held to its own block by the demand's price alone, so the
    // program is written here and only its store rows come from the formulation.
    const formulation = formulate(
      dispatchCase(blocks, {
        networks: [network("heat", demand)],
        collectors: [collector(0, { least_m2: 0 })],
        fields: [field(sun, { existing_m2: opening, most_m2: 0 })],
        stores: [store(existingSize(100))],
        backups: [backup(1, { id: "bought", mayCharge: true }), backup(1, { id: "sold", mayCharge: true })],
        unmetPrice_per_kWh: 1000,
      }),
    );
    const { program, layout } = formulation;
    const cost = program.cost.slice();
    const upper = program.colUpper.slice();
    for (let t = 0; t < blocks; t += 1) {
      const period = (t - 1) >> 1;
      const [bought, sold] = [layout.backup[0]![t]!, layout.backup[1]![t]!];
      const isSale = t % 2 === 1;
      // Heat not sold is bought back at the price at which it would have been sold.
      if (isSale) cost[sold] = sell[period]!;
      else upper[sold] = 0;
      if (t > 0 && !isSale) cost[bought] = buy[period]!;
      else upper[bought] = 0;
    }
    const answer = solveOnce(solver, { ...program, cost, colUpper: upper });
    const all = 100 * sell.reduce((sum, price) => sum + price, 0);
    expectClose(all - answer.objective, 1200, 1e-9);
  });
});

// A kW of charging power carries twelve hours of sun into the night: at a cost of c a day it adds c/12 to
// each kWh of night heat, 0.03 without it against fuel at 0.04; derived by hand.
describe("a charging power with a price of its own", () => {
  it("is built as far as the night needs it, what exists first", () => {
    for (const solver of solvers)
      for (const existing of [0, 400]) {
        const problem = squareWave({ store: { charger: { ...freeSize(0.06), existing } } });
        const formulation = formulate(problem);
        const answer = solveOnce(solver, formulation.program);
        expectClose(answer.objective, 600 + 0.06 * (1000 - existing), 1e-9);
        const plan = readPlan(formulation, cleanAnswer(formulation, answer.primal), null);
        expectClose(plan.sizes.chargers_kW[0]!, 1000 - existing, 1e-9);
        expectClose(Math.max(...plan.hours.networks[0]!.charge_kW), 1000, 1e-9);
      }
  });

  it("is left out above its break-even cost of 0.12", () => {
    for (const solver of solvers) {
      const dear = solve(squareWave({ store: { charger: freeSize(0.1201) } }), solver);
      expectClose(dear.capacity, 0, 1e-9);
      expectClose(dear.cost, 720, 1e-9);
      const cheap = solve(squareWave({ store: { charger: freeSize(0.1199) } }), solver);
      expectClose(cheap.cost, 600 + 119.9, 1e-9);
    }
  });

  it("binds beside a fixed limit on charging, whichever is less", () => {
    for (const solver of solvers) {
      const fixed = { ...freeSize(0.06), least: 500, most: 500 };
      const held = solve(squareWave({ store: { charger: fixed } }), solver);
      expectClose(Math.max(...held.network.charge_kW), 500, 1e-9);
      const both = solve(squareWave({ store: { charger: fixed, chargeLimit_kW: 200 } }), solver);
      expectClose(Math.max(...both.network.charge_kW), 200, 1e-9);
      // 200 kW through the day serve 200 kW of night at 0.03; 500 kW of charger are paid all the same.
      expectClose(both.cost, 720 - 12 * 200 * 0.01 + 0.06 * 500, 1e-9);
    }
  });
});
