import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import type { LinearProgram } from "../../../src/core/dispatch/program.ts";
import { anyCase, backup, dispatchCase, network } from "../../support/dispatch-cases.ts";
import { staircaseFaults } from "../../support/staircase-faults.ts";

const runs = { numRuns: Number(process.env.RUNS ?? 60) };

const namesOf = ({ columns, columnName, rows, rowName }: LinearProgram) => [
  ...Array.from({ length: columns }, (_, j) => columnName(j)),
  ...Array.from({ length: rows }, (_, i) => rowName(i)),
];

describe("the program's blocks", () => {
  it("have one column and row of each kind, and rows that reach back one block at most", () => {
    let wrapped = 0;
    fc.assert(
      fc.property(anyCase(), fc.boolean(), (problem, keepSizeColumns) => {
        const { program } = formulate(problem, { keepSizeColumns });
        expect(staircaseFaults(problem, program)).toEqual([]);
        const names = namesOf(program);
        expect(new Set(names).size).toBe(names.length);
        const wraps = (window: Int32Array) => window.some((block, n) => n > 0 && block < window[n - 1]!);
        if (problem.batches.some(({ windows }) => windows.some(wraps))) wrapped += 1;
      }),
      runs,
    );
    expect(wrapped).toBeGreaterThan(0);
  });

  it("keep overlapping windows apart", () => {
    const window = (from: number, length: number) => Int32Array.from({ length }, (_, n) => (from + n) % 24);
    const problem = dispatchCase(24, {
      networks: [network("n", new Float64Array(24))],
      backups: [backup(0.05)],
      batches: [
        {
          id: "kiln",
          network: 0,
          power_kW: 100,
          heat_kWh: 300,
          windows: [window(0, 9), window(6, 9), window(12, 9), window(18, 9), window(4, 24)],
        },
      ],
    });
    const { program, layout } = formulate(problem);
    expect(staircaseFaults(problem, program)).toEqual([]);
    expect(new Set(layout.unmetBatch[0]).size).toBe(5);
  });

  it("refuse a window with a gap", () => {
    const problem = dispatchCase(24, {
      networks: [network("n", new Float64Array(24))],
      batches: [{ id: "kiln", network: 0, power_kW: 100, heat_kWh: 300, windows: [Int32Array.of(2, 3, 5)] }],
    });
    expect(() => formulate(problem)).toThrow("OUT_OF_RANGE");
  });
});
