import { describe, expect, it } from "vitest";
import type { DispatchCase } from "../../../src/core/dispatch/case.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { solveOnce } from "../../../src/core/dispatch/program.ts";
import { readSizes } from "../../../src/core/dispatch/read-plan.ts";
import { interiorPoint } from "../../../src/solver/interior-point/interior-point.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

interface Given {
  readonly yield_kW_per_m2: readonly number[];
  readonly step_h: number;
  readonly fuel: number;
  readonly store: number | null;
  readonly chargeEfficiency?: number;
}

/** One network of 1000 kW, a field at 0.12 per m² and period, a store and a boiler; costs per period. */
function solved(given: Given) {
  const blocks = given.yield_kW_per_m2.length;
  const free = (annualCost_per_unit: number) => ({
    existing: 0,
    least: 0,
    most: Number.POSITIVE_INFINITY,
    annualCost_per_unit,
    initialCost_per_unit: 0,
  });
  const infinity = Number.POSITIVE_INFINITY;
  const problem: DispatchCase = {
    name: "closed-form",
    blocks,
    step_h: given.step_h,
    weight: new Float64Array(blocks).fill(1),
    cycles: [{ start: 0, length: blocks }],
    networks: [{ id: "hot", fixed_kW: new Float64Array(blocks).fill(1000) }],
    collectors: [
      {
        id: "film",
        least_m2: 0,
        most_m2: infinity,
        annualCost_per_m2: 0.12,
        initialCost_per_m2: 0,
        groundCover: 1,
      },
    ],
    fields: [
      {
        collector: 0,
        network: 0,
        existing_m2: 0,
        least_m2: 0,
        most_m2: infinity,
        yield_kW_per_m2: Float64Array.from(given.yield_kW_per_m2),
        parasitic_kW_per_m2: new Float64Array(blocks),
      },
    ],
    stores:
      given.store === null
        ? []
        : [
            {
              id: "tank",
              serves: { network: 0 },
              keep_per_h: 1,
              chargeEfficiency: given.chargeEfficiency ?? 1,
              dischargeEfficiency: 1,
              chargeLimit_kW: infinity,
              dischargeLimit_kW: infinity,
              charger: null,
              size: free(given.store),
            },
          ],
    stepDowns: [],
    cold: [],
    chillers: [],
    water: [],
    batches: [],
    backups: [
      {
        id: "boiler",
        network: 0,
        heatPrice_per_kWh: new Float64Array(blocks).fill(given.fuel),
        mayCharge: false,
        size: { ...free(0), existing: infinity, most: 0 },
      },
    ],
    electricityPrice_per_kWh: new Float64Array(blocks),
    limits: { land_m2: null, budget: null, leastSolarFraction: null },
    unmetPrice_per_kWh: 100,
    tieBreak_per_kWh: 0,
  };
  const formulation = formulate(problem);
  const answer = solveOnce(interiorPoint, formulation.program);
  expect(answer.status).toBe("optimal");
  const sizes = readSizes(formulation, answer.primal);
  const balance = formulation.layout.rows.balance[0];
  return {
    cost: answer.objective,
    area_m2: sizes.fields_m2[0],
    store_kWh: sizes.stores_kWh[0],
    price: (t: number) => answer.rowDual?.[balance[t]] ?? Number.NaN,
  };
}

const squareWave: readonly number[] = Array.from({ length: 24 }, (_, t) => (t < 12 ? 0.5 : 0));
const square = { yield_kW_per_m2: squareWave, step_h: 1 };

// Closed forms derived by hand from first principles (the derivation is in docs/methods/linear-program.md's terms):
// sun of 0.5 kW/m² for twelve hours, a constant load of 1000 kW.
describe("a square wave of sun, against closed forms", () => {
  it("covers the night from the store where that is cheaper than fuel", () => {
    const answer = solved({ ...square, fuel: 0.04, store: 0.01 });
    expectClose(answer.area_m2, 4000, 1e-5);
    expectClose(answer.store_kWh, 12_000, 1e-5);
    expectClose(answer.cost, 600, 1e-7);
    for (let t = 12; t < 24; t += 1) expectClose(answer.price(t), 0.03, 1e-5);
    const day = squareWave.reduce((sum, sun, t) => (sun > 0 ? sum + answer.price(t) / 12 : sum), 0);
    expectClose(day, 0.02, 1e-5);
  });

  it("turns at the break-even cost of the store, 0.02 per kWh", () => {
    const below = solved({ ...square, fuel: 0.04, store: 0.0199 });
    expectClose(below.store_kWh, 12_000, 1e-4);
    expectClose(below.cost, 718.8, 1e-7);
    const above = solved({ ...square, fuel: 0.04, store: 0.0201 });
    expect(above.store_kWh).toBeLessThan(0.01);
    expectClose(above.area_m2, 2000, 1e-4);
    expectClose(above.cost, 720, 1e-7);
  });

  it("builds nothing where fuel is cheaper than the sun by day", () => {
    const answer = solved({ ...square, fuel: 0.019, store: 0.01 });
    expect(answer.area_m2).toBeLessThan(0.01);
    expect(answer.store_kWh).toBeLessThan(0.01);
    expectClose(answer.cost, 456, 1e-7);
  });

  it("pays for the loss of charging with area", () => {
    const lossy = { ...square, store: 0.01, chargeEfficiency: 0.9 };
    const answer = solved({ ...lossy, fuel: 0.04 });
    expectPrinted(answer.area_m2, "4222.22");
    expectPrinted(answer.cost, "626.6667");
    for (let t = 12; t < 24; t += 1) expectPrinted(answer.price(t), "0.032222");
    expectPrinted(solved({ ...lossy, fuel: 0.032 }).cost, "624.0");
    expect(solved({ ...lossy, fuel: 0.0323 }).store_kWh).toBeGreaterThan(11_999);
  });
});

// A field against a half-sine of sun without a store; figures of the discretised programs, and the
// closed form (24·g/π)(1 − cos θ) = cost/fuel with sin θ = load/(area·g), to which they tend.
describe("a half-sine of sun, against the closed form", () => {
  const halfSine = (steps: number) => ({
    yield_kW_per_m2: Array.from({ length: steps }, (_, i) => 0.6 * Math.sin((Math.PI * (i + 0.5)) / steps)),
    step_h: 12 / steps,
    fuel: 0.04,
    store: null,
  });
  it.each<[number, string, string]>([
    [12, "1804.0", "850.63"],
    [120, "1776.47", "852.185"],
    [1200, "1775.61", "852.2003"],
  ])("in %i steps", (steps, area, cost) => {
    const answer = solved(halfSine(steps));
    // The night has no sun: its 12 hours of fuel are added by hand.
    expectPrinted(answer.cost + 12 * 1000 * 0.04, cost);
    expectPrinted(answer.area_m2, area);
  });
});
