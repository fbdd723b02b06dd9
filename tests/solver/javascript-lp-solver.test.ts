import { describe, expect, it } from "vitest";
import { solveOnce } from "../../src/core/dispatch/program.ts";
import { ProgramBuilder } from "../../src/core/dispatch/program-builder.ts";
import { javascriptLpSolver } from "../../src/solver/javascript-lp-solver.ts";
import { expectClose } from "../support/close.ts";
import { smallPrograms } from "../support/small-programs.ts";

const { infeasible, unbounded, twoColumns } = smallPrograms;

describe("javascript-lp-solver", () => {
  it("finds a minimum worked by hand and has no duals", () => {
    const answer = solveOnce(javascriptLpSolver, twoColumns());
    expect([...answer.primal]).toEqual([6, 4]);
    expect(answer.objective).toBe(24);
    expect(answer.rowDual).toBeNull();
  });

  it("tells an infeasible program from an unbounded one", () => {
    for (const program of infeasible())
      expect(solveOnce(javascriptLpSolver, program).status).toBe("infeasible");
    for (const program of unbounded())
      expect(solveOnce(javascriptLpSolver, program).status).toBe("unbounded");
  });

  it("takes lower bounds that are not zero, fixed columns and ranges", () => {
    const builder = new ProgramBuilder();
    const column = (cost: number, lower: number, upper: number) =>
      builder.column(builder.family(`x${cost}`), -1, cost, lower, upper);
    const raised = column(1, -5, 7);
    const fixed = column(2, 3, 3);
    const other = column(-3, 2, Number.POSITIVE_INFINITY);
    const range = builder.row(builder.family("range"), -1, 1, 4);
    for (const j of [raised, fixed, other]) builder.entry(range, j, 1);
    // min −5 + 6 − 3·other with −5 + 3 + other ≤ 4: other 6 in exchange for raised −5 gives −17.
    const answer = solveOnce(javascriptLpSolver, builder.assemble("bounds"));
    expect([...answer.primal]).toEqual([-5, 3, 6]);
    expectClose(answer.objective, -17, 1e-12);
  });

  it("starts again with other bounds and other costs", () => {
    const session = javascriptLpSolver.open(twoColumns());
    session.setColumnBounds(Int32Array.of(0), Float64Array.of(0), Float64Array.of(Number.POSITIVE_INFINITY));
    expectClose(session.run().objective, 20, 1e-12);
    session.setCosts(Float64Array.of(5, 1));
    expectClose(session.run().objective, 10, 1e-12);
    session.close();
  });

  it("refuses a column without a lower bound", () => {
    const builder = new ProgramBuilder();
    builder.column(builder.family("open"), -1, 1, Number.NEGATIVE_INFINITY, 5);
    expect(() => solveOnce(javascriptLpSolver, builder.assemble("open"))).toThrow(/lower bound of open/);
  });

  it("counts its pivots", () => {
    expect(solveOnce(javascriptLpSolver, twoColumns()).iterations).toBeGreaterThan(0);
  });
});
