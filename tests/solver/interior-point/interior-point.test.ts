import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { type LinearProgram, solveOnce } from "../../../src/core/dispatch/program.ts";
import { verify } from "../../../src/core/dispatch/verify.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { interiorPoint } from "../../../src/solver/interior-point/interior-point.ts";
import { expectClose } from "../../support/close.ts";
import { caseOf, type Recipe, recipes } from "./random-case.ts";

// Held against HiGHS (npm `highs`), a general-purpose solver that shares no code with ours.
const highs = await loadHighs();

const plain: Recipe = {
  seed: 11,
  days: 3,
  daily: false,
  networks: 2,
  collectors: 2,
  stores: true,
  losses: true,
  stepDowns: true,
  cold: true,
  coldStore: true,
  water: true,
  batches: true,
  boiler: "unlimited",
  mayCharge: false,
  powerLimits: false,
  sizes: "free",
  land: true,
  budget: false,
  collectorBounds: false,
  leastSolarFraction: null,
  fuel_per_kWh: 0.06,
};

/** min cost·x over dense rows, without blocks. */
function dense(
  cost: number[],
  rows: number[][],
  rowBounds: [number, number][],
  bounds: [number, number][],
): LinearProgram {
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  cost.forEach((_, j) => {
    rows.forEach((row, i) => {
      if (row[j] === 0) return;
      indices.push(i);
      values.push(row[j]);
    });
    starts.push(indices.length);
  });
  return {
    name: "dense",
    columns: cost.length,
    rows: rows.length,
    cost: Float64Array.from(cost),
    colLower: Float64Array.from(bounds, ([lower]) => lower),
    colUpper: Float64Array.from(bounds, ([, upper]) => upper),
    rowLower: Float64Array.from(rowBounds, ([lower]) => lower),
    rowUpper: Float64Array.from(rowBounds, ([, upper]) => upper),
    starts: Int32Array.from(starts),
    indices: Int32Array.from(indices),
    values: Float64Array.from(values),
    columnName: (column) => `x${column}`,
    rowName: (row) => `r${row}`,
  };
}
const infinity = Number.POSITIVE_INFINITY;

describe("random dispatch problems", () => {
  it("cost what HiGHS says, and their duals prove it", () => {
    fc.assert(
      fc.property(recipes, (recipe) => {
        const { program } = formulate(caseOf(recipe));
        const expected = solveOnce(highs, program);
        expect(expected.status).toBe("optimal");
        const answer = solveOnce(interiorPoint, program);
        expect(answer.status).toBe("optimal");
        expectClose(answer.objective, expected.objective, 1e-6);
        const proof = verify(program, answer.primal, answer.rowDual);
        expect(proof.relativeGap).toBeLessThan(1e-6);
        // The engine's tolerance is relative to the largest product in a row.
        expect(proof.primalResidual).toBeLessThan(1e-8 * answer.primal.reduce((a, b) => Math.max(a, b), 1));
        expect(proof.dualResidual).toBeLessThan(1e-8 * Math.max(1, ...program.cost));
      }),
      { numRuns: 30, seed: 20261125 },
    );
  });
});

describe("a full year", () => {
  it("is solved and proved by its own duals", () => {
    const year = { ...plain, days: 365, networks: 1 };
    const { program } = formulate(caseOf(year));
    const answer = solveOnce(interiorPoint, program);
    expect(answer.status).toBe("optimal");
    const proof = verify(program, answer.primal, answer.rowDual);
    expect(proof.relativeGap).toBeLessThan(1e-7);
    expect(proof.primalResidual).toBeLessThan(1e-4);
    expect(proof.dualResidual).toBeLessThan(1e-5);
  });
});

describe("a session", () => {
  it("solves again with other bounds and costs", () => {
    const { program, layout } = formulate(caseOf(plain));
    const ours = interiorPoint.open(program);
    const theirs = highs.open(program);
    expectClose(ours.run().objective, theirs.run().objective, 1e-6);
    const columns = layout.sizes.fields.slice();
    for (const session of [ours, theirs]) {
      session.setColumnBounds(columns, new Float64Array(4).fill(200), new Float64Array(4).fill(200));
    }
    expectClose(ours.run().objective, theirs.run().objective, 1e-6);
    const dearer = program.cost.map((cost) => 1.5 * cost + 1e-3);
    for (const session of [ours, theirs]) session.setCosts(dearer);
    expectClose(ours.run().objective, theirs.run().objective, 1e-6);
    theirs.close();
  });

  it("gives the reduced costs of its row duals", () => {
    const { program } = formulate(caseOf(plain));
    const { rowDual, reducedCost } = solveOnce(interiorPoint, program);
    for (let j = 0; j < program.columns; j += 1) {
      let reduced = program.cost[j];
      for (let e = program.starts[j]; e < program.starts[j + 1]; e += 1) {
        reduced -= program.values[e] * (rowDual?.[program.indices[e]] ?? Number.NaN);
      }
      expectClose(reducedCost?.[j] ?? Number.NaN, reduced, 1e-9);
    }
  });

  it("stops when asked", () => {
    const { program } = formulate(caseOf(plain));
    let seen = 0;
    const answer = solveOnce(interiorPoint, program, {
      onIterations: (iterations) => {
        seen = iterations;
      },
      shouldStop: () => seen >= 5,
    });
    expect(answer.status).toBe("stopped");
    expect(answer.objective).toBeNaN();
  });

  it("asks for a cost for each column", () => {
    const session = interiorPoint.open(formulate(caseOf(plain)).program);
    expect(() => session.setCosts(new Float64Array(3))).toThrow(RangeError);
  });
});

describe("programs without blocks", () => {
  it("may have free columns, ranges, upper bounds below zero and ≥ rows", () => {
    const program = dense(
      [1, -2, 0.5, 3],
      [
        [1, 1, 1, 0],
        [1, -1, 0, 2],
        [0, 1, 3, -1],
      ],
      [
        [2, 2],
        [-3, 4],
        [1, infinity],
      ],
      [
        [-infinity, infinity],
        [0, 5],
        [-infinity, 2],
        [0.5, infinity],
      ],
    );
    const [ours, theirs] = [solveOnce(interiorPoint, program), solveOnce(highs, program)];
    expectClose(ours.objective, theirs.objective, 1e-7);
    const proof = verify(program, ours.primal, ours.rowDual);
    expect(proof.relativeGap).toBeLessThan(1e-6);
  });

  it("are called infeasible or unbounded where one row or column shows it", () => {
    const impossible = dense([1], [[1]], [[0, 1]], [[3, 3]]);
    expect(solveOnce(interiorPoint, impossible).status).toBe("infeasible");
    const crossed = dense([1], [[1]], [[0, 1]], [[3, 2]]);
    expect(solveOnce(interiorPoint, crossed).status).toBe("infeasible");
    const falling = dense(
      [-1, 1],
      [[0, 1]],
      [[1, 2]],
      [
        [0, infinity],
        [0, infinity],
      ],
    );
    expect(solveOnce(interiorPoint, falling).status).toBe("unbounded");
  });

  it("are not called optimal where rows conflict", () => {
    const conflict = dense(
      [1, 1],
      [
        [1, 1],
        [1, 1],
      ],
      [
        [-infinity, 1],
        [2, infinity],
      ],
      [
        [0, infinity],
        [0, infinity],
      ],
    );
    expect(solveOnce(highs, conflict).status).toBe("infeasible");
    expect(solveOnce(interiorPoint, conflict).status).toBe("unknown");
  });
});
