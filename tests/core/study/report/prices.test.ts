import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import type { DispatchCase, SizeCase } from "../../../../src/core/dispatch/case.ts";
import { formulate } from "../../../../src/core/dispatch/formulate.ts";
import type { LinearProgram, LpSolver } from "../../../../src/core/dispatch/program.ts";
import { pricesOf } from "../../../../src/core/study/report/prices.ts";
import { sizeItems } from "../../../../src/core/study/report/size-items.ts";
import { withSizeColumns } from "../../../../src/core/study/report/with-size-columns.ts";
import type { PriceEntry } from "../../../../src/core/study/result.ts";
import { loadHighs } from "../../../../src/solver/highs.ts";
import { anyCase } from "../../../support/dispatch-cases.ts";
import {
  heldAt,
  leastCost,
  namedModel,
  type PricedCase,
  priceCase,
  rowsMoved,
} from "../../../support/priced-case.ts";

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadHighs();
});
const runs = { numRuns: 40 };

const cost = (program: LinearProgram) => leastCost(solver, program);

/** The objective's own rounding, as a saving per unit of step. */
const dust = (objective: number, step: number) => (1e-8 * (1 + Math.abs(objective))) / step + 1e-7;

/**
 * The least cost is convex in a bound, so a shadow price lies between what the last unit saved and what
 * the next one will: (V(x) − V(x + h))/h ≤ v ≤ (V(x − h) − V(x))/h.
 */
function expectBetween(
  value: number,
  at: (by: number) => number,
  objective: number,
  step: number,
  what: string,
): number {
  const next = (objective - at(step)) / step;
  const last = (at(-step) - objective) / step;
  const slack = dust(objective, step);
  expect(next, `${what}: one more saves ${next}, priced at ${value}`).toBeLessThanOrEqual(value + slack);
  expect(last, `${what}: one less costs ${last}, priced at ${value}`).toBeGreaterThanOrEqual(value - slack);
  return last - next;
}

/** True where a limit is stretched or something stays unmet. */
function isPenalised({ plan: { stretch, hours } }: PricedCase): boolean {
  const lacks = [
    ...hours.networks.map(({ unmet_kW }) => unmet_kW),
    ...hours.cold.map(({ unmet_kW }) => unmet_kW),
    ...hours.water.map(({ unmet_m3_h }) => unmet_m3_h),
    ...hours.batches.map(({ unmet_kWh }) => unmet_kWh),
    Object.values(stretch),
  ];
  return lacks.some((series) => series.some((lack) => lack > 1e-6));
}

/** Entries of sizes with their items, in the same order. */
function priced(problem: DispatchCase, solved: PricedCase) {
  const model = namedModel(problem);
  const prices = pricesOf(model, solved.plan, "full-year", solved.duals)!;
  const items = sizeItems(model, solved.formulation, solved.duals.sizes);
  return { prices, sizes: items.map((item, n) => ({ item, entry: prices.entries[n]! })) };
}

describe("the worth of one more unit", () => {
  it("lies between what the last unit saved and what the next would, of every size", () => {
    const gaps: number[] = [];
    const states = new Map<string, number>();
    fc.assert(
      fc.property(anyCase(), (problem) => {
        const solved = priceCase(problem, solver);
        const { program } = solved.formulation;
        for (const { item, entry } of priced(problem, solved).sizes) {
          const at = (by: number) =>
            cost(heldAt(rowsMoved(program, [item.sharedRow], by), item.column, item.size + by));
          const what = `${item.kind} ${item.id}, ${entry.state}`;
          gaps.push(expectBetween(entry.value_per_unit!, at, solved.objective, 1, what));
          states.set(entry.state, (states.get(entry.state) ?? 0) + 1);
        }
      }),
      runs,
    );
    // The brackets say something: many are tight, and every state was met.
    expect(gaps.filter((gap) => gap < 1e-3).length).toBeGreaterThan(gaps.length / 4);
    for (const state of ["built", "unbuilt", "at its limit", "fixed"]) {
      expect(states.get(state) ?? 0, state).toBeGreaterThan(5);
    }
  });

  it("lies there for sizes that a program holds without a column, too", () => {
    const signs = { more: 0, less: 0 };
    fc.assert(
      fc.property(fc.oneof(anyCase(), anyCase({ limits: false, negative: false })), (problem) => {
        const solved = priceCase(problem, solver, false);
        if (isPenalised(solved)) return;
        const whole = withSizeColumns(solved.duals);
        const items = sizeItems(namedModel(problem), whole.formulation, whole.sizes);
        const { entries } = pricesOf(namedModel(problem), solved.plan, "full-year", solved.duals)!;
        items.forEach((item, n) => {
          const { state, value_per_unit: value, kind } = entries[n]!;
          if (state !== "fixed") return;
          const at = (by: number) =>
            cost(
              heldAt(rowsMoved(whole.formulation.program, [item.sharedRow], by), item.column, item.size + by),
            );
          expectBetween(value!, at, solved.objective, 1, `${kind} ${item.id} at ${item.size}`);
          if (value! > 1e-3) signs.more += 1;
          if (value! < -1e-3) signs.less += 1;
        });
      }),
      { numRuns: 150 },
    );
    expect(signs.more).toBeGreaterThan(3);
    expect(signs.less).toBeGreaterThan(3);
  });

  it("is what a m² of land, a unit of budget and a point of solar fraction would save", () => {
    let binding = 0;
    fc.assert(
      fc.property(anyCase(), (problem) => {
        const solved = priceCase(problem, solver);
        const { prices } = priced(problem, solved);
        const { program, layout } = solved.formulation;
        for (const entry of prices.entries) {
          const value = entry.value_per_unit!;
          if (entry.kind === "land" || entry.kind === "budget") {
            const at = (by: number) => cost(rowsMoved(program, [layout.rows[entry.kind as "land"]], by));
            expectBetween(value, at, solved.objective, 1, entry.what);
            if (value > 0) binding += 1;
          }
          if (entry.kind === "solar-fraction") {
            // Not convex, since the share stands at columns too: only where both sides agree.
            const at = (by: number) => {
              const leastSolarFraction = problem.limits.leastSolarFraction! - by / 100;
              const moved = { ...problem, limits: { ...problem.limits, leastSolarFraction } };
              return cost(formulate(moved, { keepSizeColumns: true }).program);
            };
            const step = 1e-3;
            const next = (solved.objective - at(step)) / step;
            const last = (at(-step) - solved.objective) / step;
            if (Math.abs(next - last) > 1e-3 * Math.abs(next)) continue;
            const slack = 1e-3 * Math.abs(next) + dust(solved.objective, step);
            expect(Math.abs(value - next), `${value} for ${next}`).toBeLessThan(slack);
            if (value > 0) binding += 1;
          }
        }
      }),
      runs,
    );
    expect(binding).toBeGreaterThan(20);
  });
});

describe("the price at which unbuilt plant enters", () => {
  /** The program with all prices of one item times a factor, as annual cost and as capital. */
  const repriced = (
    { formulation: { program, layout } }: PricedCase,
    column: number,
    entry: PriceEntry,
    factor: number,
  ) => {
    const prices = program.cost.slice();
    const values = program.values.slice();
    prices[column]! += (factor - 1) * entry.annualCost_per_unit!;
    for (let e = program.starts[column]!; e < program.starts[column + 1]!; e += 1)
      if (program.indices[e] === layout.rows.budget) values[e]! *= factor;
    return { ...program, cost: prices, values };
  };

  /** The case with new plant at several times its price, so that much of it stays unbuilt. */
  const dear = (problem: DispatchCase): DispatchCase => {
    const each = <T extends { readonly size: SizeCase }>(items: readonly T[], factor: number) =>
      items.map((item) => ({
        ...item,
        size: { ...item.size, annualCost_per_unit: factor * item.size.annualCost_per_unit },
      }));
    return {
      ...problem,
      collectors: problem.collectors.map((item) => ({
        ...item,
        annualCost_per_m2: 2 * item.annualCost_per_m2,
      })),
      stores: each(problem.stores, 8),
      stepDowns: each(problem.stepDowns, 8),
      chillers: each(problem.chillers, 8),
      backups: each(problem.backups, 8),
    };
  };

  const unhindered = [
    anyCase({ limits: false }),
    anyCase({ limits: false, boilers: false, water: false, negative: false }),
  ];
  /** Money for a part of the plant alone: what is unbuilt pays twice for its price. */
  const poor = anyCase({ limits: false, boilers: false, water: false, bounds: false, negative: false }).map(
    (problem) => ({
      ...problem,
      limits: { ...problem.limits, budget: 3000 },
    }),
  );

  it("keeps it out just above and lets it in just below", () => {
    let entered = 0;
    let doubtful = 0;
    fc.assert(
      fc.property(fc.oneof(anyCase(), ...unhindered, poor).map(dear), (problem) => {
        const solved = priceCase(problem, solver);
        // Beside penalties the entry of anything is rounding, and a study gives no prices then.
        if (isPenalised(solved)) return;
        for (const { item, entry } of priced(problem, solved).sizes) {
          if (entry.state !== "unbuilt" || entry.entry === null) continue;
          const { factor } = entry.entry;
          if (factor < 0.01 || factor > 0.999) continue;
          const { objective } = solved;
          const slack = 1e-8 * (1 + Math.abs(objective));
          const above = cost(repriced(solved, item.column, entry, factor * 1.001));
          expect(Math.abs(above - objective), `${item.kind} ${item.id} stays out`).toBeLessThan(slack);
          // Where other plant's duals are not unique it may take less: the next unit's saving tells.
          const small = 0.1;
          const forced = cost(heldAt(solved.formulation.program, item.column, small));
          const next = (objective - forced) / small;
          const rounding = (1e-10 * (1 + Math.abs(objective))) / small + 1e-4 * entry.annualCost_per_unit!;
          // Priced too high at most, never too low.
          expect(next, `${item.kind} ${item.id}`).toBeLessThan(entry.value_per_unit! + rounding);
          if (next < entry.value_per_unit! - rounding) {
            doubtful += 1;
            continue;
          }
          const below = cost(repriced(solved, item.column, entry, factor * 0.95));
          expect(below, `${item.kind} ${item.id} enters`).toBeLessThan(objective);
          entered += 1;
        }
      }),
      { numRuns: 200 },
    );
    expect(entered).toBeGreaterThan(40);
    expect(doubtful).toBeLessThan(entered / 3);
  });
});

describe("the marginal cost of heat", () => {
  it("is what more heat asked for would cost, in all hours at once and in single hours", () => {
    const gaps: number[] = [];
    fc.assert(
      fc.property(anyCase(), fc.nat(), (problem, pick) => {
        const solved = priceCase(problem, solver);
        const step = 0.5;
        problem.networks.forEach((_, k) => {
          const { marginal_per_kWh } = solved.plan.hours.networks[k]!;
          const asked = (in_: (t: number) => boolean) => (by: number) => {
            const networks = problem.networks.map((network, n) =>
              n === k
                ? { ...network, fixed_kW: network.fixed_kW.map((heat, t) => (in_(t) ? heat - by : heat)) }
                : network,
            );
            return cost(formulate({ ...problem, networks }, { keepSizeColumns: true }).program);
          };
          const worth = (in_: (t: number) => boolean) =>
            marginal_per_kWh.reduce(
              (all, price, t) => all + (in_(t) ? price * problem.weight[t]! * problem.step_h : 0),
              0,
            );
          const one = pick % problem.blocks;
          for (const hours of [() => true, (t: number) => t === one]) {
            gaps.push(expectBetween(worth(hours), asked(hours), solved.objective, step, `network ${k}`));
          }
        });
      }),
      runs,
    );
    expect(gaps.filter((gap) => gap < 1e-3).length).toBeGreaterThan(gaps.length / 2);
  });
});
