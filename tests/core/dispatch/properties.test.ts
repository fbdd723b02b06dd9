import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { atSizes, type DispatchCase, type NewSizes } from "../../../src/core/dispatch/case.ts";
import { cleanAnswer } from "../../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { type Plan, readPlan } from "../../../src/core/dispatch/read-plan.ts";
import { freeSizes, holdSizes } from "../../../src/core/dispatch/size-bounds.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { anyCase, noLimits } from "../../support/dispatch-cases.ts";
import { mapSizes, scaleFuel, scaleLoads, scalePrices } from "../../support/scaled-cases.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

const runs = { numRuns: Number(process.env.RUNS ?? 40) };

interface Solved {
  readonly objective: number;
  readonly plan: Plan;
}

function solve(problem: DispatchCase): Solved {
  const formulation = formulate(problem);
  const answer = solveOnce(highs, formulation.program);
  expect(answer.status).toBe("optimal");
  const plan = readPlan(formulation, cleanAnswer(formulation, answer.primal), answer.rowDual);
  return { objective: answer.objective, plan };
}

/** a ≤ b but for the solver's tolerance. */
function expectAtMost(a: number, b: number, tolerance = 1e-7): void {
  expect(a - b).toBeLessThanOrEqual(tolerance * (1 + Math.abs(a) + Math.abs(b)));
}
function expectSame(a: number, b: number): void {
  expectAtMost(a, b);
  expectAtMost(b, a);
}

/** Only what running costs: plant is free, parasitics and limits are left out. */
function runningCostOnly(problem: DispatchCase): DispatchCase {
  const free = mapSizes(problem, (size) => ({ ...size, annualCost_per_unit: 0 }));
  return {
    ...free,
    limits: noLimits,
    collectors: free.collectors.map((item) => ({ ...item, annualCost_per_m2: 0 })),
    fields: free.fields.map((item) => ({ ...item, parasitic_kW_per_m2: new Float64Array(problem.blocks) })),
  };
}

/** Sizes drawn as shares of usual ones, for any case of at most two networks. */
const someSizes = fc
  .record({
    fields: fc.tuple(fc.nat({ max: 3000 }), fc.nat({ max: 3000 })),
    stores: fc.tuple(fc.nat({ max: 6000 }), fc.nat({ max: 6000 }), fc.nat({ max: 6000 })),
    chargers: fc.tuple(fc.nat({ max: 1000 }), fc.nat({ max: 1000 }), fc.nat({ max: 1000 })),
    stepDown: fc.nat({ max: 600 }),
    chiller: fc.nat({ max: 300 }),
    backups: fc.tuple(fc.nat({ max: 1500 }), fc.nat({ max: 1500 }), fc.nat({ max: 1500 })),
  })
  .map(
    (drawn) =>
      (problem: DispatchCase): NewSizes => ({
        fields_m2: Float64Array.from(problem.fields, (_, i) => drawn.fields[i]!),
        stores_kWh: Float64Array.from(problem.stores, (_, i) => drawn.stores[i]!),
        chargers_kW: Float64Array.from(problem.stores, ({ charger }, i) =>
          charger === null ? 0 : drawn.chargers[i]!,
        ),
        stepDowns_kW: Float64Array.from(problem.stepDowns, () => drawn.stepDown),
        chillers_kW: Float64Array.from(problem.chillers, () => drawn.chiller),
        // A boiler that is there and may not grow stays as it is.
        backups_kW: Float64Array.from(problem.backups, ({ size }, i) =>
          Math.min(size.most, drawn.backups[i]!),
        ),
      }),
  );

/** 1 − (backup + unmet) / heat drawn. */
function solarFraction({ hours }: Plan, problem: DispatchCase): number {
  let drawn = 0;
  let other = 0;
  for (const n of hours.networks)
    for (let t = 0; t < problem.blocks; t += 1) {
      drawn += problem.weight[t]! * n.demand_kW[t]!;
      other += problem.weight[t]! * (n.backup_kW[t]! + n.unmet_kW[t]!);
    }
  return drawn > 0 ? 1 - other / drawn : 0;
}

describe("with the other sizes fixed", () => {
  for (const [what, grow] of [
    ["area", (sizes, by) => ({ ...sizes, fields_m2: sizes.fields_m2.map((size) => size + by) })],
    [
      "charging power",
      (sizes, by) => ({ ...sizes, chargers_kW: sizes.chargers_kW.map((size) => size + by) }),
    ],
    ["store", (sizes, by) => ({ ...sizes, stores_kWh: sizes.stores_kWh.map((size) => size + by) })],
  ] as const satisfies readonly (readonly [string, (sizes: NewSizes, by: number) => NewSizes])[]) {
    it(`more ${what} never raises the cost of running`, () => {
      fc.assert(
        fc.property(anyCase(), someSizes, fc.integer({ min: 1, max: 2000 }), (problem, draw, by) => {
          const running = runningCostOnly(problem);
          const less = solve(atSizes(running, draw(running)));
          const more = solve(atSizes(running, grow(draw(running), by)));
          expectAtMost(more.objective, less.objective);
        }),
        runs,
      );
    });

    it(`more ${what} never lowers the solar fraction of one network at constant prices without cooling`, () => {
      const plain = anyCase({ networks: 1, cold: false, boilers: false });
      fc.assert(
        fc.property(plain, someSizes, fc.integer({ min: 1, max: 2000 }), (problem, draw, by) => {
          const constant = {
            ...runningCostOnly(problem),
            electricityPrice_per_kWh: new Float64Array(problem.blocks).fill(0.1),
            tieBreak_per_kWh: 0,
          };
          const less = solve(atSizes(constant, draw(constant)));
          const more = solve(atSizes(constant, grow(draw(constant), by)));
          expectAtMost(solarFraction(less.plan, constant), solarFraction(more.plan, constant));
        }),
        runs,
      );
    });
  }
});

describe("scaling", () => {
  it("halving every price halves the cost", () => {
    fc.assert(
      fc.property(anyCase(), (problem) => {
        // Land and fraction are stretched at a share of the unmet price, which goes along.
        expectSame(2 * solve(scalePrices(problem, 0.5)).objective, solve(problem).objective);
      }),
      runs,
    );
  });

  it("doubling every load doubles cost and sizes", () => {
    fc.assert(
      fc.property(anyCase(), (problem) => {
        const once = solve(problem);
        const twice = solve(scaleLoads(problem, 2));
        expectSame(twice.objective, 2 * once.objective);
        // Where land or budget is exceeded, rounding of held sizes alone is charged at the price of the stretch.
        const { land_m2, budget } = problem.limits;
        if (land_m2 !== null || budget !== null) return;
        // Sizes need not be unique: twice the old ones must be as good as the new ones.
        const doubled = Object.fromEntries(
          Object.entries(once.plan.sizes).map(([key, sizes]) => [key, sizes.map((size: number) => 2 * size)]),
        ) as unknown as NewSizes;
        expectSame(solve(atSizes(scaleLoads(problem, 2), doubled)).objective, twice.objective);
      }),
      runs,
    );
  });

  it("cost never falls with the price of fuel, and rises ever more slowly", () => {
    fc.assert(
      fc.property(
        anyCase({ negative: false }),
        fc.double({ min: 0.2, max: 1, noNaN: true }),
        (problem, share) => {
          const at = (factor: number) => solve(scaleFuel(problem, factor)).objective;
          const [low, middle, high] = [at(share), at((1 + share) / 2), at(1)];
          expectAtMost(low, middle);
          expectAtMost(middle, high);
          expectAtMost((low + high) / 2, middle);
        },
      ),
      runs,
    );
  });
});

/** Cost of a plant run without foresight: sun first, surplus into the store, the store before the boiler. */
function greedyCost(problem: DispatchCase, sizes: NewSizes): number {
  const [network] = problem.networks;
  const [boiler] = problem.backups;
  const [tank] = problem.stores;
  let content = 0;
  let cost = 0;
  problem.fields.forEach((item, f) => {
    const { annualCost_per_m2 } = problem.collectors[item.collector]!;
    cost += sizes.fields_m2[f]! * annualCost_per_m2;
  });
  problem.stores.forEach((item, s) => {
    cost += sizes.stores_kWh[s]! * item.size.annualCost_per_unit;
    if (item.charger !== null) cost += sizes.chargers_kW[s]! * item.charger.annualCost_per_unit;
  });
  for (const { start, length } of problem.cycles) {
    content = 0;
    for (let t = start; t < start + length; t += 1) {
      const hours = problem.weight[t]! * problem.step_h;
      let sun = 0;
      problem.fields.forEach((item, f) => {
        const area = sizes.fields_m2[f]! + item.existing_m2;
        sun += area * item.yield_kW_per_m2[t]!;
        cost += hours * area * item.parasitic_kW_per_m2[t]! * problem.electricityPrice_per_kWh[t]!;
      });
      let wanted = network!.fixed_kW[t]!;
      const direct = Math.min(sun, wanted);
      wanted -= direct;
      let charge = 0;
      let drawn = 0;
      if (tank !== undefined) {
        const kept = content * tank.keep_per_h ** problem.step_h;
        const room = tank.size.existing + sizes.stores_kWh[0]! - kept;
        const power = tank.charger === null ? Infinity : tank.charger.existing + sizes.chargers_kW[0]!;
        charge = Math.min(
          sun - direct,
          power,
          tank.chargeLimit_kW,
          room / problem.step_h / tank.chargeEfficiency,
        );
        drawn = Math.min(wanted / tank.dischargeEfficiency, tank.dischargeLimit_kW, kept / problem.step_h);
        content = kept + (tank.chargeEfficiency * charge - drawn) * problem.step_h;
        wanted -= drawn * tank.dischargeEfficiency;
      }
      cost += hours * (boiler!.heatPrice_per_kWh[t]! * wanted + problem.tieBreak_per_kWh * charge);
    }
  }
  return cost;
}

describe("the optimum", () => {
  it("is no dearer than any other plant dispatched", () => {
    fc.assert(
      fc.property(anyCase({ bounds: false, limits: false }), someSizes, (problem, draw) => {
        expectAtMost(solve(problem).objective, solve(atSizes(problem, draw(problem))).objective);
      }),
      runs,
    );
  });

  it("is no dearer than a dispatch without foresight, at its own sizes and at any", () => {
    const plain = anyCase({
      networks: 1,
      cold: false,
      water: false,
      batch: false,
      boilers: false,
      limits: false,
      bounds: false,
    });
    let dearer = 0;
    fc.assert(
      fc.property(plain, someSizes, (problem, draw) => {
        const best = solve(problem);
        const own = greedyCost(problem, best.plan.sizes);
        expectAtMost(best.objective, own);
        expectAtMost(best.objective, greedyCost(problem, draw(problem)));
        expectAtMost(solve(atSizes(problem, draw(problem))).objective, greedyCost(problem, draw(problem)));
        if (own > best.objective * (1 + 1e-6)) dearer += 1;
      }),
      runs,
    );
    // Without a single case in which foresight pays the comparison would prove little.
    expect(dearer).toBeGreaterThan(0);
  });
});

describe("sizes held in an open program", () => {
  it("cost what the same sizes cost in a program of their own, and let go again cost the optimum", () => {
    fc.assert(
      fc.property(anyCase({ bounds: false, limits: false }), someSizes, (problem, draw) => {
        const sizes = draw(problem);
        const formulation = formulate(problem, { keepSizeColumns: true });
        const session = highs.open(formulation.program);
        try {
          holdSizes(session, formulation, sizes);
          const held = session.run();
          expect(held.status).toBe("optimal");
          expectSame(held.objective, solve(atSizes(problem, sizes)).objective);
          freeSizes(session, formulation);
          expectSame(session.run().objective, solve(problem).objective);
        } finally {
          session.close();
        }
      }),
      runs,
    );
  });
});

describe("heat", () => {
  it("is spilled only where it was collected, and unused sun is all spilled", () => {
    fc.assert(
      fc.property(anyCase(), (problem) => {
        const { hours, sizes } = solve(problem).plan;
        hours.networks.forEach((n, k) => {
          for (let t = 0; t < problem.blocks; t += 1) {
            let collected = 0;
            problem.fields.forEach((item, f) => {
              if (item.network === k)
                collected += (sizes.fields_m2[f]! + item.existing_m2) * item.yield_kW_per_m2[t]!;
            });
            expect(n.spill_kW[t]!).toBeGreaterThanOrEqual(0);
            expect(n.solar_kW[t]!).toBeGreaterThanOrEqual(0);
            expectSame(n.solar_kW[t]! + n.spill_kW[t]!, collected);
          }
        });
      }),
      runs,
    );
  });

  it("of a backup that may not charge never goes into a store", () => {
    let charged = 0;
    fc.assert(
      fc.property(anyCase(), (problem) => {
        const { hours } = solve(problem).plan;
        hours.networks.forEach((n, k) => {
          if (problem.backups.some((item) => item.network === k && item.mayCharge)) return;
          for (let t = 0; t < problem.blocks; t += 1) {
            expectAtMost(n.charge_kW[t]!, n.solar_kW[t]! + n.stepIn_kW[t]!);
            if (n.charge_kW[t]! > 1) charged += 1;
          }
        });
      }),
      runs,
    );
    expect(charged).toBeGreaterThan(0);
  });

  it("keeps within land, budget and least solar fraction, or says by how much it does not", () => {
    let held = 0;
    fc.assert(
      fc.property(anyCase({ cold: false }), (problem) => {
        const { plan } = solve(problem);
        const { land_m2, budget, leastSolarFraction } = problem.limits;
        let land = 0;
        let capital = 0;
        problem.fields.forEach((item, f) => {
          const { groundCover, initialCost_per_m2 } = problem.collectors[item.collector]!;
          land += (plan.sizes.fields_m2[f]! + item.existing_m2) / groundCover;
          capital += plan.sizes.fields_m2[f]! * initialCost_per_m2;
        });
        const lists = [
          [problem.stores, plan.sizes.stores_kWh],
          [problem.stepDowns, plan.sizes.stepDowns_kW],
          [problem.backups, plan.sizes.backups_kW],
        ] as const;
        for (const [items, sizes] of lists)
          items.forEach(({ size }, i) => {
            capital += sizes[i]! * size.initialCost_per_unit;
          });
        problem.stores.forEach(({ charger }, i) => {
          if (charger !== null) capital += plan.sizes.chargers_kW[i]! * charger.initialCost_per_unit;
        });
        if (land_m2 !== null) expectAtMost(land - plan.stretch.land_m2, land_m2);
        if (budget !== null) expectAtMost(capital - plan.stretch.budget, budget);
        if (leastSolarFraction !== null && plan.stretch.fraction_kWh === 0) {
          held += 1;
          expectAtMost(leastSolarFraction, solarFraction(plan, problem), 1e-6);
        }
      }),
      runs,
    );
    expect(held).toBeGreaterThan(0);
  });
});
