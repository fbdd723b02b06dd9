import { beforeAll, describe, expect, it } from "vitest";
import { type LinearProgram, type LpSolver, solveOnce } from "../../src/core/dispatch/program.ts";
import { ProgramBuilder } from "../../src/core/dispatch/program-builder.ts";
import { loadHighs } from "../../src/solver/highs.ts";
import { expectClose } from "../support/close.ts";
import { smallPrograms } from "../support/small-programs.ts";

const { infeasible, unbounded, twoColumns } = smallPrograms;
let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

describe("highs", () => {
  it("gives shadow prices and reduced costs with the sign of a minimum", () => {
    // min 2a + 3b, a + b ≥ 10, a ≤ 6: worked by hand.
    const answer = solveOnce(highs, twoColumns());
    expect([...answer.primal]).toEqual([6, 4]);
    expect([...answer.rowDual!]).toEqual([3]);
    expect([...answer.reducedCost!]).toEqual([-1, 0]);
  });

  it("tells an infeasible program from an unbounded one", () => {
    for (const program of infeasible()) expect(solveOnce(highs, program).status).toBe("infeasible");
    for (const program of unbounded()) expect(solveOnce(highs, program).status).toBe("unbounded");
  });

  it("starts again with other bounds and other costs", () => {
    const session = highs.open(twoColumns());
    expectClose(session.run().objective, 24, 1e-12);
    session.setColumnBounds(Int32Array.of(0), Float64Array.of(0), Float64Array.of(Number.POSITIVE_INFINITY));
    expectClose(session.run().objective, 20, 1e-12);
    session.setCosts(Float64Array.of(5, 1));
    expectClose(session.run().objective, 10, 1e-12);
    expect(() => session.setCosts(Float64Array.of(1))).toThrow(RangeError);
    session.close();
  });

  it("solves to a tolerance of its caller, between 1e-10 and 1e-3", async () => {
    // x + y ≥ 2.0001 with x, y ≤ 1 is out of reach by 1e-4: within the loose tolerance, beyond the tight one.
    const builder = new ProgramBuilder();
    const row = builder.row(builder.family("r"), -1, 2 + 1e-4, Number.POSITIVE_INFINITY);
    for (const name of ["x", "y"]) builder.entry(row, builder.column(builder.family(name), -1, 1, 0, 1), 1);
    const program = builder.assemble("near");
    expect(solveOnce(await loadHighs({ tolerance: 1e-3 }), program).status).toBe("optimal");
    expect(solveOnce(await loadHighs({ tolerance: 1e-10 }), program).status).toBe("infeasible");
    const beyond = await loadHighs({ tolerance: 1e-13 });
    expect(() => beyond.open(program)).toThrow(/setOption/);
  });

  it("stops when asked to", () => {
    const builder = new ProgramBuilder();
    const count = 400;
    for (let j = 0; j < count; j += 1) builder.column(builder.family(`x${j}`), -1, 1 + (j % 7), 0, 10);
    for (let i = 0; i < count; i += 1) {
      const row = builder.row(builder.family(`r${i}`), -1, 5 + (i % 11), Number.POSITIVE_INFINITY);
      for (let k = 0; k < 6; k += 1) builder.entry(row, (i * 13 + k * 29) % count, 1 + ((i + k) % 3));
    }
    const program: LinearProgram = builder.assemble("long");
    expect(solveOnce(highs, program).status).toBe("optimal");
    let asked = 0;
    const stopped = solveOnce(highs, program, {
      shouldStop: () => {
        asked += 1;
        return true;
      },
    });
    expect(asked).toBeGreaterThan(0);
    expect(stopped.status).toBe("stopped");
    expect(stopped.objective).toBeNaN();
  });
});
