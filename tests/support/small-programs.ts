import type { LinearProgram } from "../../src/core/dispatch/program.ts";
import { ProgramBuilder } from "../../src/core/dispatch/program-builder.ts";

const infinity = Number.POSITIVE_INFINITY;

type Column = readonly [cost: number, lower: number, upper: number];
type Row = readonly [figures: readonly number[], lower: number, upper: number];

function programOf(columns: readonly Column[], rows: readonly Row[]): LinearProgram {
  const builder = new ProgramBuilder();
  columns.forEach(([cost, lower, upper], j) => {
    builder.column(builder.family(`x${j}`), -1, cost, lower, upper);
  });
  rows.forEach(([figures, lower, upper], i) => {
    const row = builder.row(builder.family(`r${i}`), -1, lower, upper);
    figures.forEach((value, j) => {
      builder.entry(row, j, value);
    });
  });
  return builder.assemble("small");
}

/** Programs small enough to be seen through. */
export const smallPrograms = {
  /** min 2a + 3b, a + b ≥ 10, a ≤ 6. */
  twoColumns: () =>
    programOf(
      [
        [2, 0, 6],
        [3, 0, infinity],
      ],
      [[[1, 1], 10, infinity]],
    ),
  infeasible: () => [
    programOf([[1, 0, 3]], [[[1], 5, infinity]]),
    programOf(
      [
        [1, 0, infinity],
        [1, 0, infinity],
      ],
      [
        [[1, 1], -infinity, 4],
        [[1, 1], 5, infinity],
      ],
    ),
    programOf([[-1, 0, infinity]], [[[0], 5, 5]]),
    // Infeasible although its cost could fall for ever.
    programOf(
      [
        [-1, 0, infinity],
        [0, 0, 1],
      ],
      [[[0, 1], 2, 2]],
    ),
  ],
  unbounded: () => [
    programOf([[-1, 0, infinity]], [[[1], 5, infinity]]),
    programOf(
      [
        [1, 0, infinity],
        [-2, 0, infinity],
      ],
      [[[1, -1], -infinity, 3]],
    ),
  ],
};
