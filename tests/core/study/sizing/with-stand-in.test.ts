import { describe, expect, it } from "vitest";
import { formulate } from "../../../../src/core/dispatch/formulate.ts";
import { type LpAnswer, type LpSolver, solveOnce } from "../../../../src/core/dispatch/program.ts";
import { withStandIn } from "../../../../src/core/study/sizing/with-stand-in.ts";
import { loadHighs } from "../../../../src/solver/highs.ts";
import { interiorPoint } from "../../../../src/solver/interior-point/interior-point.ts";
import { expectClose } from "../../../support/close.ts";
import { backup, collector, dispatchCase, field, network } from "../../../support/dispatch-cases.ts";

const highs = await loadHighs();
const { program, layout } = formulate(
  dispatchCase(4, {
    networks: [network("n", Float64Array.of(10, 10, 10, 10))],
    collectors: [collector(0.1)],
    fields: [field(Float64Array.of(0, 0.5, 0.5, 0))],
    backups: [backup(0.06)],
  }),
);

/** The interior point, its answers changed on the way out. */
const spoiled = (change: (answer: LpAnswer) => LpAnswer): LpSolver => ({
  name: "spoiled",
  open: (given) => {
    const session = interiorPoint.open(given);
    return {
      run: (options) => change(session.run(options)),
      setColumnBounds: (...bounds) => session.setColumnBounds(...bounds),
      setCosts: (cost) => session.setCosts(cost),
      close: () => session.close(),
    };
  },
});

describe("a solver with a stand-in", () => {
  it("keeps the first one's answer where its own duals prove it", () => {
    const heard: string[] = [];
    const answer = solveOnce(
      withStandIn(interiorPoint, highs, (why) => heard.push(why)),
      program,
    );
    expect(answer.solver).toBe("interior point");
    expect(heard).toEqual([]);
  });

  it.each([
    [
      "says that it does not know",
      (answer: LpAnswer) => ({ ...answer, status: "unknown" as const }),
      "status unknown",
    ],
    [
      "breaks a row",
      (answer: LpAnswer) => ({ ...answer, primal: answer.primal.map((x) => x * 1.01) }),
      "a residual",
    ],
    [
      "is not optimal",
      (answer: LpAnswer) => ({
        ...answer,
        rowDual: (answer.rowDual ?? new Float64Array()).map((y) => y * 0.9),
      }),
      "a gap",
    ],
  ])("takes the other one's where the first %s, and says so", (_, change, word) => {
    const heard: string[] = [];
    const answer = solveOnce(
      withStandIn(spoiled(change), highs, (why) => heard.push(why)),
      program,
    );
    expect(answer.solver).toBe("highs");
    expectClose(answer.objective, solveOnce(highs, program).objective, 1e-12);
    expect(heard).toHaveLength(1);
    expect(heard[0]).toContain(word);
  });

  it("says nothing of a program that has no answer at all", () => {
    const heard: string[] = [];
    const none = {
      ...program,
      rowLower: program.rowLower.map(() => 1),
      rowUpper: program.rowUpper.map(() => 0),
    };
    const answer = solveOnce(
      withStandIn(interiorPoint, highs, (why) => heard.push(why)),
      none,
    );
    expect(answer.status).not.toBe("optimal");
    expect(heard).toEqual([]);
  });

  it("solves again with other bounds and costs, also once the stand-in works", () => {
    const column = layout.sizes.fields;
    for (const first of [interiorPoint, spoiled((answer) => ({ ...answer, status: "unknown" }))]) {
      const session = withStandIn(first, highs, () => {}).open(program);
      const reference = highs.open(program);
      for (const solver of [session, reference]) solver.run();
      for (const solver of [session, reference])
        solver.setColumnBounds(column, Float64Array.of(5), Float64Array.of(5));
      expectClose(session.run().objective, reference.run().objective, 1e-7);
      for (const solver of [session, reference]) solver.setCosts(program.cost.map((cost) => 2 * cost));
      expectClose(session.run().objective, reference.run().objective, 1e-7);
      session.close();
      reference.close();
    }
  });
});
