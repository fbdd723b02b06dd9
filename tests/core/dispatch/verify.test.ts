import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { balanceResidual_kW } from "../../../src/core/dispatch/balance-check.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import type { HourlyResult } from "../../../src/core/dispatch/hourly-result.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { verify } from "../../../src/core/dispatch/verify.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { expectClose } from "../../support/close.ts";
import { anyCase } from "../../support/dispatch-cases.ts";
import { smallPrograms } from "../../support/small-programs.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

describe("an answer checked by the definitions", () => {
  // min 2a + 3b, a + b ≥ 10, 0 ≤ a ≤ 6, b ≥ 0: (6, 4), price 3; worked by hand.
  const program = smallPrograms.twoColumns();

  it("has no residual and no gap where it is the optimum", () => {
    expect(verify(program, Float64Array.of(6, 4), Float64Array.of(3))).toEqual({
      objective: 24,
      primalResidual: 0,
      dualResidual: 0,
      relativeGap: 0,
    });
  });

  it("shows by how much a row or a bound is broken", () => {
    expect(verify(program, Float64Array.of(6, 3.5), null).primalResidual).toBe(0.5);
    expect(verify(program, Float64Array.of(6.25, 4), null).primalResidual).toBe(0.25);
    expect(verify(program, Float64Array.of(11, -0.75), null).primalResidual).toBe(5);
    expect(verify(program, Float64Array.of(Number.NaN, 4), null).primalResidual).not.toBe(0);
  });

  it("shows the gap of a plan that is not the best", () => {
    // (4, 6) costs 26 against a dual objective of 24.
    const check = verify(program, Float64Array.of(4, 6), Float64Array.of(3));
    expect(check.primalResidual).toBe(0);
    expectClose(check.relativeGap!, 2 / 27, 1e-12);
  });

  it("shows prices that prove nothing", () => {
    // A price of 4 leaves b with a reduced cost of −1 and no upper bound to lean on.
    expect(verify(program, Float64Array.of(6, 4), Float64Array.of(4)).dualResidual).toBe(1);
    // A negative price leans on the row's upper side, which is infinite.
    expect(verify(program, Float64Array.of(6, 4), Float64Array.of(-1)).dualResidual).toBe(1);
    expect(verify(program, Float64Array.of(6, 4), null)).toMatchObject({
      dualResidual: null,
      relativeGap: null,
    });
  });

  it("never passes a random plant's answer that was spoilt", () => {
    fc.assert(
      fc.property(anyCase(), fc.nat(), fc.double({ min: 0.5, max: 5, noNaN: true }), (problem, at, by) => {
        const { program: random } = formulate(problem);
        const { primal, rowDual } = solveOnce(highs, random);
        const column = at % random.columns;
        // A column without cost or rows may take any value within its bounds.
        if (random.starts[column] === random.starts[column + 1] && random.cost[column] === 0) return;
        const spoilt = primal.slice();
        spoilt[column]! += by;
        const good = verify(random, primal, rowDual);
        const bad = verify(random, spoilt, rowDual);
        expect(good.primalResidual).toBeLessThan(1e-6);
        const shows =
          bad.primalResidual > 1e-6 || bad.objective > good.objective - 1e-9 * (1 + Math.abs(good.objective));
        expect(shows).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});

describe("the balance of written hours", () => {
  const hour = (value: number) => Float64Array.of(value);
  const hours = (change: Partial<Record<string, number>>): HourlyResult => {
    const values = {
      demand: 10,
      solar: 6,
      backup: 1,
      charge: 2,
      discharge: 5,
      stepIn: 1,
      stepOut: 2,
      unmet: 1,
      ...change,
    };
    return {
      networks: [
        {
          id: "n",
          demand_kW: hour(values.demand),
          solar_kW: hour(values.solar),
          backup_kW: hour(values.backup),
          charge_kW: hour(values.charge),
          discharge_kW: hour(values.discharge),
          stepIn_kW: hour(values.stepIn),
          stepOut_kW: hour(values.stepOut),
          spill_kW: hour(99),
          unmet_kW: hour(values.unmet),
          content_kWh: hour(99),
          marginal_per_kWh: hour(99),
        },
      ],
      cold: [],
      water: [],
      batches: [],
      electricity_kW: hour(0),
      electricityPrice_per_kWh: hour(0),
    };
  };

  it("closes where supply is use, and tells any term that is off", () => {
    expect(balanceResidual_kW(hours({}))).toBe(0);
    for (const term of ["demand", "solar", "backup", "charge", "discharge", "stepIn", "stepOut", "unmet"])
      expect(balanceResidual_kW(hours({ [term]: 30 })), term).toBeGreaterThan(10);
  });
});
