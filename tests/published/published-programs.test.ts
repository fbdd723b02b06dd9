import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type LinearProgram, solveOnce } from "../../src/core/dispatch/program.ts";
import { ProgramBuilder } from "../../src/core/dispatch/program-builder.ts";
import { verify } from "../../src/core/dispatch/verify.ts";
import { javascriptLpSolver } from "../../src/solver/javascript-lp-solver.ts";
import { expectClose } from "../support/close.ts";
import { everySolver } from "../support/every-solver.ts";
import { scaleOf } from "../support/random-plant-tests.ts";
import { readMps } from "../support/read-mps.ts";

const infinity = Number.POSITIVE_INFINITY;

/** A program from rows of figures; every column is at least 0. A maximum is minimised with its sign turned. */
function programOf(cost: number[], rows: [figures: number[], lower: number, upper: number][]): LinearProgram {
  const builder = new ProgramBuilder();
  cost.forEach((value, j) => {
    builder.column(builder.family(`x${j}`), -1, value, 0, infinity);
  });
  rows.forEach(([figures, lower, upper], i) => {
    const row = builder.row(builder.family(`r${i}`), -1, lower, upper);
    figures.forEach((value, j) => {
      builder.entry(row, j, value);
    });
  });
  return builder.assemble("published");
}
const atMost = (figures: number[], upper: number): [number[], number, number] => [figures, -infinity, upper];
const atLeast = (figures: number[], lower: number): [number[], number, number] => [figures, lower, infinity];

interface Published {
  readonly name: string;
  readonly program: LinearProgram;
  readonly objective: number;
  readonly primal: readonly number[] | null;
  /** d objective / d right-hand side of the minimised program. */
  readonly rowDual: readonly number[] | null;
}

/** All from memory, solved again by hand; checks 8.4–8.8 and 8.11 of the project's list. */
const published: readonly Published[] = [
  {
    name: "Wyndor Glass (Hillier & Lieberman, Introduction to Operations Research)",
    program: programOf([-3, -5], [atMost([1, 0], 4), atMost([0, 2], 12), atMost([3, 2], 18)]),
    objective: -36,
    primal: [2, 6],
    rowDual: [0, -1.5, -1],
  },
  {
    name: "Reddy Mikks (Taha, Operations Research)",
    program: programOf(
      [-5, -4],
      [atMost([6, 4], 24), atMost([1, 2], 6), atMost([-1, 1], 1), atMost([0, 1], 2)],
    ),
    objective: -21,
    primal: [3, 1.5],
    rowDual: [-0.75, -0.5, 0, 0],
  },
  {
    name: "Dakota furniture (Winston, Operations Research)",
    program: programOf(
      [-60, -30, -20],
      [atMost([8, 6, 1], 48), atMost([4, 2, 1.5], 20), atMost([2, 1.5, 0.5], 8)],
    ),
    objective: -280,
    primal: [2, 0, 8],
    rowDual: [0, -10, -10],
  },
  {
    name: "Dorian Auto (Winston, Operations Research)",
    program: programOf([50, 100], [atLeast([7, 2], 28), atLeast([2, 12], 24)]),
    objective: 320,
    primal: [3.6, 1.4],
    rowDual: [5, 7.5],
  },
  {
    name: "diet (Winston, Operations Research)",
    program: programOf(
      [50, 20, 30, 80],
      [
        atLeast([400, 200, 150, 500], 500),
        atLeast([3, 2, 0, 0], 6),
        atLeast([2, 2, 4, 4], 10),
        atLeast([2, 4, 1, 5], 8),
      ],
    ),
    objective: 90,
    primal: [0, 3, 1, 0],
    rowDual: [0, 2.5, 7.5, 0],
  },
  { name: "Sunco blending (Winston, Operations Research)", ...sunco(), primal: null, rowDual: null },
];

/** Three crudes into three fuels, octane and sulphur limited, demand raised by advertising. */
function sunco(): { program: LinearProgram; objective: number } {
  const crudes = [
    { price: 45, octane: 12, sulphur: 0.5 },
    { price: 35, octane: 6, sulphur: 2 },
    { price: 25, octane: 8, sulphur: 3 },
  ];
  const fuels = [
    { price: 70, octane: 10, sulphur: 1, demand: 3000 },
    { price: 60, octane: 8, sulphur: 2, demand: 2000 },
    { price: 50, octane: 6, sulphur: 1, demand: 1000 },
  ];
  const process = 4;
  // Columns: barrels of crude c in fuel f, then advertising for each fuel.
  const at = (value: (crude: number, fuel: number) => number, ads: (fuel: number) => number = () => 0) => [
    ...crudes.flatMap((_, c) => fuels.map((__, f) => value(c, f))),
    ...fuels.map((_, f) => ads(f)),
  ];
  const rows: [number[], number, number][] = [
    ...crudes.map((_, own) =>
      atMost(
        at((c) => (c === own ? 1 : 0)),
        5000,
      ),
    ),
    atMost(
      at(() => 1),
      14000,
    ),
    ...fuels.flatMap(({ octane, sulphur, demand }, own): [number[], number, number][] => [
      atLeast(
        at((c, f) => (f === own ? crudes[c]!.octane - octane : 0)),
        0,
      ),
      atMost(
        at((c, f) => (f === own ? crudes[c]!.sulphur - sulphur : 0)),
        0,
      ),
      [
        at(
          (_, f) => (f === own ? 1 : 0),
          (f) => (f === own ? -10 : 0),
        ),
        demand,
        demand,
      ],
    ]),
  ];
  const cost = at(
    (c, f) => crudes[c]!.price + process - fuels[f]!.price,
    () => 1,
  );
  return { program: programOf(cost, rows), objective: -287_750 };
}

/** Instances as the netlib collection publishes them, with the optimum that the readme of its lp/data prints. */
const netlib = [
  { name: "afiro", objective: -464.75314286 },
  { name: "sc50a", objective: -64.575077059 },
  { name: "sc50b", objective: -70 },
  { name: "sc105", objective: -52.202061212 },
  { name: "blend", objective: -30.812149846 },
  { name: "kb2", objective: -1749.9001299 },
  { name: "share2b", objective: -415.73224074 },
  { name: "stocfor1", objective: -41131.976219 },
  { name: "recipe", objective: -266.616 },
].map((item) => ({
  ...item,
  program: readMps(readFileSync(new URL(`netlib/${item.name}.mps`, import.meta.url), "utf8")),
}));

const solvers = await everySolver();

describe.each(solvers)("$solver.name", ({ solver, costTolerance, sizeTolerance }) => {
  it.each(published)("solves $name", ({ program, objective, primal }) => {
    const answer = solveOnce(solver, program);
    expect(answer.status).toBe("optimal");
    expectClose(answer.objective, objective, costTolerance);
    primal?.forEach((value, j) => {
      expectClose(answer.primal[j]!, value, sizeTolerance);
    });
    // In units of the programs, whose right-hand sides go up to 14 000.
    expect(verify(program, answer.primal, null).primalResidual).toBeLessThan(100 * costTolerance);
  });
});

describe.each(solvers.filter(({ hasDuals }) => hasDuals))(
  "$solver.name",
  ({ solver, costTolerance, sizeTolerance }) => {
    it.each(published)("proves $name by shadow prices", ({ program, rowDual }) => {
      // With the sign of d objective / d right-hand side.
      const answer = solveOnce(solver, program);
      rowDual?.forEach((value, i) => {
        expectClose(answer.rowDual![i]!, value, sizeTolerance);
      });
      const proof = verify(program, answer.primal, answer.rowDual);
      expect(proof.relativeGap).toBeLessThan(costTolerance);
      expect(proof.dualResidual).toBeLessThan(sizeTolerance);
    });
  },
);

describe.each(solvers.filter(({ hasDuals }) => hasDuals))(
  "$solver.name",
  ({ solver, costTolerance, sizeTolerance }) => {
    it.each(netlib)("solves and proves $name of netlib", ({ program, objective }) => {
      const answer = solveOnce(solver, program);
      expect(answer.status).toBe("optimal");
      expectClose(answer.objective, objective, costTolerance);
      const proof = verify(program, answer.primal, answer.rowDual);
      expect(proof.primalResidual).toBeLessThan(100 * costTolerance);
      expect(proof.relativeGap).toBeLessThan(costTolerance);
      expect(proof.dualResidual).toBeLessThan(sizeTolerance);
    });
  },
);

describe("javascript-lp-solver", () => {
  /** Where it ends without an answer. */
  const givesUp = ["share2b"];

  it.each(netlib)(
    "costs what is printed for $name of netlib, or gives up",
    ({ name, program, objective }) => {
      const answer = solveOnce(javascriptLpSolver, program);
      expect(answer.status).toBe(givesUp.includes(name) ? "unknown" : "optimal");
      if (answer.status !== "optimal") return;
      expectClose(answer.objective, objective, 1e-6);
      expect(verify(program, answer.primal, null).primalResidual).toBeLessThan(1e-6 * scaleOf(program));
    },
  );
});
