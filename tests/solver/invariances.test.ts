import { describe, expect, it } from "vitest";
import { atSizes, type DispatchCase, type NewSizes } from "../../src/core/dispatch/case.ts";
import { formulate } from "../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../src/core/dispatch/program.ts";
import { readSizes } from "../../src/core/dispatch/read-plan.ts";
import { loadHighs } from "../../src/solver/highs.ts";
import { interiorPoint } from "../../src/solver/interior-point/interior-point.ts";
import { expectClose } from "../support/close.ts";
import { plantFeatures } from "../support/plant-features.ts";
import { randomPlant } from "../support/random-plant.ts";
import { mapSizes, scaleFuel, scaleLoads, scalePrices } from "../support/scaled-cases.ts";
import { squareWave } from "../support/storage-cases.ts";

// Invariances of a linear program, derived by hand from its definition (checks 8.20 of the project's list).

/** Tight, since the usual tolerance of 1e-7 leaves objectives of small plants up to 1e-4 short. */
const solvers: readonly LpSolver[] = [await loadHighs({ tolerance: 1e-10 }), interiorPoint];

/** Plants of 24 different shapes: seeds 9001, 9004, … 9070. */
const all = Array.from({ length: 24 }, (_, n) => randomPlant(9001 + 3 * n));
const plantsWithout = (...features: readonly string[]) =>
  all.filter((plant) => !features.some((feature) => plantFeatures[feature]!(plant)));

const tolerance = 1e-6;
const scaleOf = (...values: readonly number[]) => Math.max(10, ...values.map(Math.abs));
function expectAtMost(a: number, b: number, of: string): void {
  expect(a - b, `${of}: ${a} at most ${b}`).toBeLessThanOrEqual(tolerance * scaleOf(a, b));
}

function solve(solver: LpSolver, problem: DispatchCase): { readonly cost: number; readonly sizes: NewSizes } {
  const formulation = formulate(problem);
  const answer = solveOnce(solver, formulation.program);
  expect(answer.status, problem.name).toBe("optimal");
  return { cost: answer.objective, sizes: readSizes(formulation, answer.primal) };
}

/** Sizes times a factor, within rounding of what the solver gave. */
const timesSizes = (sizes: NewSizes, factor: number) =>
  Object.fromEntries(
    Object.entries(sizes).map(([list, values]) => [
      list,
      values.map((size: number) => factor * Math.max(0, size)),
    ]),
  ) as unknown as NewSizes;

describe.each(solvers)("$name", (solver) => {
  it("doubles cost and sizes where every load, limit and existing plant doubles", () => {
    const plants = plantsWithout("land", "budget");
    expect(plants.length).toBeGreaterThan(6);
    for (const plant of plants) {
      const once = solve(solver, plant);
      const doubled = scaleLoads(plant, 2);
      const twice = solve(solver, doubled);
      expectAtMost(Math.abs(twice.cost - 2 * once.cost), 0, plant.name);
      // Sizes need not be unique: twice the old ones must be as good as the new ones. The least solar fraction
      // would charge rounding of held sizes at the price of its stretch.
      if (plant.limits.leastSolarFraction !== null) continue;
      const held = solve(solver, atSizes(doubled, timesSizes(once.sizes, 2))).cost;
      expect(Math.abs(held - twice.cost), plant.name).toBeLessThanOrEqual(1e-5 * scaleOf(twice.cost));
    }
  });

  it("doubles land and budget with the loads", () => {
    const plants = all.filter(({ limits }) => limits.land_m2 !== null || limits.budget !== null);
    expect(plants.length).toBeGreaterThan(6);
    for (const plant of plants) {
      const [once, twice] = [solve(solver, plant), solve(solver, scaleLoads(plant, 2))];
      // A stretched budget is priced by the unit of money, so it doubles too.
      expect(Math.abs(twice.cost - 2 * once.cost), plant.name).toBeLessThanOrEqual(
        tolerance * scaleOf(twice.cost),
      );
    }
  });

  it("keeps the sizes where every price is multiplied", () => {
    const plants = plantsWithout("land", "budget", "least solar fraction");
    expect(plants.length).toBeGreaterThan(6);
    for (const plant of plants) {
      const [once, dearer] = [solve(solver, plant), solve(solver, scalePrices(plant, 3))];
      expect(Math.abs(dearer.cost - 3 * once.cost), plant.name).toBeLessThanOrEqual(
        tolerance * scaleOf(dearer.cost),
      );
      const held = solve(solver, atSizes(plant, timesSizes(dearer.sizes, 1))).cost;
      expect(Math.abs(held - once.cost), plant.name).toBeLessThanOrEqual(1e-5 * scaleOf(once.cost));
    }
  });

  it("never falls in cost as fuel gets dearer, and rises ever more slowly", () => {
    const plants = plantsWithout("negative prices");
    expect(plants.length).toBeGreaterThan(6);
    for (const plant of plants) {
      const [low, middle, high] = [0.4, 0.7, 1].map((factor) => solve(solver, scaleFuel(plant, factor)).cost);
      expectAtMost(low!, middle!, plant.name);
      expectAtMost(middle!, high!, plant.name);
      expectAtMost((low! + high!) / 2, middle!, plant.name);
    }
  });

  it("never pays more for running a bigger plant", () => {
    let cheaper = 0;
    for (const plant of all) {
      const running = runningCostOnly(plant);
      const usual: NewSizes = {
        fields_m2: new Float64Array(plant.fields.length).fill(400),
        stores_kWh: new Float64Array(plant.stores.length).fill(800),
        chargers_kW: new Float64Array(plant.stores.length).fill(80),
        stepDowns_kW: new Float64Array(plant.stepDowns.length).fill(50),
        chillers_kW: new Float64Array(plant.chillers.length).fill(50),
        backups_kW: new Float64Array(plant.backups.length).fill(100),
      };
      // Backups without limit, whatever their size, stay without.
      const [less, more] = [1, 2].map(
        (factor) => solve(solver, atSizes(running, timesSizes(usual, factor))).cost,
      );
      expectAtMost(more!, less!, plant.name);
      if (more! < less! - 1e-3 * scaleOf(less!)) cheaper += 1;
    }
    expect(cheaper).toBeGreaterThan(12);
  });
});

/** Only what running costs: plant is free, parasitics and limits are left out. */
function runningCostOnly(problem: DispatchCase): DispatchCase {
  const free = mapSizes(problem, (size) => ({ ...size, annualCost_per_unit: 0 }));
  return {
    ...free,
    limits: { land_m2: null, budget: null, leastSolarFraction: null },
    collectors: free.collectors.map((item) => ({ ...item, annualCost_per_m2: 0 })),
    fields: free.fields.map((item) => ({ ...item, parasitic_kW_per_m2: new Float64Array(problem.blocks) })),
  };
}

describe("a plant of one answer", () => {
  it.each(solvers)(
    "has the very sizes twice as large at twice the loads, and the same at other prices: $name",
    (solver) => {
      // A square wave of sun whose optimum is unique: 4000 m² and 12 000 kWh (check 8.12).
      const plant = squareWave({});
      const sizes = (problem: DispatchCase) => {
        const found = solve(solver, problem).sizes;
        return [found.fields_m2[0]!, found.stores_kWh[0]!];
      };
      const [area, content] = sizes(plant);
      expectClose(area!, 4000, 1e-5);
      expectClose(content!, 12_000, 1e-5);
      const [twice, dearer] = [sizes(scaleLoads(plant, 2)), sizes(scalePrices(plant, 7))];
      expectClose(twice[0]!, 8000, 1e-5);
      expectClose(twice[1]!, 24_000, 1e-5);
      expectClose(dearer[0]!, 4000, 1e-5);
      expectClose(dearer[1]!, 12_000, 1e-5);
    },
  );
});
