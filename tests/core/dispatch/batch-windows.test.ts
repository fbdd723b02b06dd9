import { beforeAll, describe, expect, it } from "vitest";
import { cleanAnswer } from "../../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { readPlan } from "../../../src/core/dispatch/read-plan.ts";
import { verify } from "../../../src/core/dispatch/verify.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { javascriptLpSolver } from "../../../src/solver/javascript-lp-solver.ts";
import { expectClose } from "../../support/close.ts";
import { backup, dispatchCase, network } from "../../support/dispatch-cases.ts";

let solvers: LpSolver[];
beforeAll(async () => {
  solvers = [await loadHighs(), javascriptLpSolver];
});

/** A batch of 100 kWh at 60 kW at most, in blocks of two hours whose heat prices are 1 to 6 cents. */
function solve(solver: LpSolver, windows: readonly (readonly number[])[], heat_kWh = 100) {
  const formulation = formulate(
    dispatchCase(6, {
      step_h: 2,
      networks: [network("n", new Float64Array(6))],
      backups: [backup(Float64Array.of(0.01, 0.02, 0.03, 0.04, 0.05, 0.06))],
      batches: [
        {
          id: "kiln",
          network: 0,
          power_kW: 30,
          heat_kWh,
          windows: windows.map((blocks) => Int32Array.from(blocks)),
        },
      ],
    }),
  );
  const answer = solveOnce(solver, formulation.program);
  const x = cleanAnswer(formulation, answer.primal);
  const check = verify(formulation.program, x, answer.rowDual);
  expect(check.primalResidual).toBeLessThan(1e-9);
  return { cost: check.objective, x, formulation, plan: readPlan(formulation, x, null) };
}

// By hand: 60 kWh in the cheapest block of a window, the rest in the next.
describe("a batch within its window", () => {
  it("takes its heat where it is cheapest", () => {
    for (const solver of solvers) {
      const { cost, plan } = solve(solver, [[1, 2, 3]]);
      expectClose(cost, 60 * 0.02 + 40 * 0.03, 1e-9);
      expectClose(plan.hours.batches[0]!.heat_kW[1]!, 30, 1e-9);
      expectClose(plan.hours.batches[0]!.heat_kW[2]!, 20, 1e-9);
    }
  });

  it("may run over the end of the cycle", () => {
    for (const solver of solvers) {
      const { cost, x, formulation } = solve(solver, [[4, 5, 0]]);
      expectClose(cost, 60 * 0.01 + 40 * 0.05, 1e-9);
      const [contents] = formulation.layout.batchContent[0]!;
      expectClose(x[contents![0]!]!, 40, 1e-9);
      expectClose(x[contents![1]!]!, 40, 1e-9);
      expect(contents![2]).toBe(-1);
    }
  });

  it("may be one block long, and lacks what the power cannot give", () => {
    for (const solver of solvers) {
      const { cost, plan } = solve(solver, [[3]]);
      expectClose(cost, 60 * 0.04 + 40 * 100, 1e-9);
      expectClose(plan.hours.batches[0]!.unmet_kWh[0]!, 40, 1e-9);
    }
  });

  it("comes again in each window, also right after another", () => {
    for (const solver of solvers) {
      const { cost } = solve(solver, [
        [0, 1],
        [2, 3],
        [4, 5],
      ]);
      expectClose(cost, 60 * 0.01 + 40 * 0.02 + 60 * 0.03 + 40 * 0.04 + 60 * 0.05 + 40 * 0.06, 1e-9);
    }
  });

  it("counts heat for every window that is open where windows overlap", () => {
    for (const solver of solvers) {
      // Block 1 and 2 serve both windows; 60 kWh at 2 cents and 40 kWh at 3 cents are enough for two batches.
      const { cost } = solve(solver, [
        [1, 2, 3],
        [0, 1, 2],
      ]);
      expectClose(cost, 60 * 0.02 + 40 * 0.03, 1e-9);
    }
  });
});
