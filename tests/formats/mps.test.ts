import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import highsModule from "highs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { exampleBundle } from "../../src/app/example.ts";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import { formulate } from "../../src/core/dispatch/formulate.ts";
import { type LinearProgram, type LpSolver, solveOnce } from "../../src/core/dispatch/program.ts";
import { ProgramBuilder } from "../../src/core/dispatch/program-builder.ts";
import { typicalDays } from "../../src/core/dispatch/typical-days.ts";
import { plantModel } from "../../src/core/study/plant-model.ts";
import { mpsChunks, writeMps } from "../../src/formats/mps.ts";
import { loadHighs } from "../../src/solver/highs.ts";
import { expectClose } from "../support/close.ts";
import { cutCase } from "../support/dispatch-cases.ts";

const infinity = Number.POSITIVE_INFINITY;
const loadModule = highsModule as unknown as typeof highsModule.default;

/** True where a program answers on the command line. */
function isThere(command: string, flag: string): boolean {
  try {
    execFileSync(command, [flag], { stdio: "ignore", input: "" });
    return true;
  } catch {
    return false;
  }
}
const hasGlpsol = isThere("glpsol", "--version");
const hasClp = isThere("clp", "-quit");

let folder: string;
let highs: LpSolver;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "mps-"));
  highs = await loadHighs();
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Each reader takes a file and gives the least objective it finds. */
const readers: Record<string, (file: string) => Promise<number> | number> = {
  glpsol: (file) => {
    const out = `${file}.out`;
    // Its primal simplex takes reduced costs of 0.002 for zero beside the price of unmet heat.
    execFileSync("glpsol", ["--freemps", file, "--min", "--dual", "-o", out], { stdio: "pipe" });
    const [, value] = /Objective:\s+\S+ = (\S+) \(MINimum\)/.exec(readFileSync(out, "utf8")) ?? [];
    return readFileSync(out, "utf8").includes("Status:     OPTIMAL") ? Number(value) : Number.NaN;
  },
  clp: (file) => {
    const out = `${file}.sol`;
    execFileSync("clp", [file, "-solve", "-solution", out], { stdio: "pipe" });
    const [, value] = /^Optimal - objective value\s+(\S+)/i.exec(readFileSync(out, "utf8")) ?? [];
    return Number(value);
  },
  highs: async (file) => {
    const model = (await loadModule()).createModel();
    try {
      model.options.set("output_flag", false);
      model.readModel({ format: "mps", data: readFileSync(file) });
      return model.run().modelStatus === 7 ? model.getObjectiveValue() : Number.NaN;
    } finally {
      model.dispose();
    }
  },
};

let written = 0;
async function readBack(name: string, program: LinearProgram): Promise<number> {
  written += 1;
  const file = join(folder, `${written}.mps`);
  writeFileSync(file, writeMps(program));
  return readers[name]!(file);
}

/** Every kind of row and bound, with an optimum found by hand. */
function everyBound(): LinearProgram {
  const builder = new ProgramBuilder();
  const column = (name: string, cost: number, lower: number, upper: number) =>
    builder.column(builder.family(name), -1, cost, lower, upper);
  const row = (name: string, lower: number, upper: number) =>
    builder.row(builder.family(name), -1, lower, upper);
  const plain = column("plain", 1, 0, infinity);
  const free = column("free", 1, -infinity, infinity);
  const below = column("below", -1, -infinity, -2.5);
  const between = column("between", 1, -4, -1);
  const raised = column("raised", 2, 3, 7);
  const fixed = column("fixed", 10, 1, 1);
  column("idle", 0, 0, 5);
  builder.entry(row("least", 2, infinity), plain, 1);
  builder.entry(row("range", -8, -6), free, 1);
  const most = row("most", -infinity, 12);
  builder.entry(most, raised, 1);
  builder.entry(most, fixed, 1);
  const equal = row("equal", -1, -1);
  builder.entry(equal, between, 1);
  builder.entry(equal, plain, 1 / 3);
  builder.entry(row("free-row", -infinity, infinity), below, 1);
  return builder.assemble("every-bound");
}
/** plain 9 and between −4 (1·9 − 4) beats plain 2, between −5/3 (1/3): 1/3; free −8, below −2.5, raised 3, fixed 1. */
const everyBoundOptimum = 1 / 3 - 8 + 2.5 + 6 + 10;

const fixture = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../fixtures/worked-example/${name}`, import.meta.url), "utf8"));

/** Programs of the worked example. */
const programs: Record<string, LinearProgram> = {};
let fullYear: LinearProgram;
beforeAll(() => {
  const bundle = exampleBundle({ study: fixture("study.json"), means: fixture("monthly-means.json") });
  const resolved = resolveStudy(bundle);
  if (!resolved.ok) throw new Error(resolved.problems.map(({ message }) => message).join("\n"));
  const { problem } = plantModel(resolved.value);
  programs["typical days"] = formulate(typicalDays(problem, 4).problem).program;
  programs["fourteen days"] = formulate(cutCase(problem, 336)).program;
  fullYear = formulate(problem).program;
});

describe("free MPS", () => {
  const cases = [
    ["glpsol", hasGlpsol],
    ["clp", hasClp],
    ["highs", true],
  ] as const;
  for (const [name, present] of cases) {
    it.skipIf(!present)(`reads back by ${name} with every kind of row and bound`, async () => {
      // clp prints eight digits.
      expectClose(await readBack(name, everyBound()), everyBoundOptimum, 5e-8);
    });
    for (const which of ["typical days", "fourteen days"]) {
      it.skipIf(!present)(`reads back by ${name} to the same objective: ${which}`, async () => {
        const program = programs[which]!;
        const { status, objective } = solveOnce(highs, program);
        expect(status).toBe("optimal");
        const back = await readBack(name, program);
        expect(Math.abs(back - objective) / Math.abs(objective)).toBeLessThan(1e-6);
      });
    }
  }

  it("keeps every digit of a number", () => {
    const text = writeMps(everyBound());
    expect(text).toContain(` plain equal ${1 / 3}\n`);
  });

  it("has no tab, no blank name, no objective sense and no constant on the right-hand side", () => {
    const text = writeMps(programs["typical days"]!);
    expect(text).not.toMatch(/\t/);
    expect(text).not.toMatch(/OBJSENSE/);
    expect(text).not.toMatch(/^ rhs cost /m);
    for (const line of text.split("\n").filter((each) => each.startsWith(" ")))
      expect(line.trim().split(/\s+/).length).toBeLessThanOrEqual(4);
  });

  it("adds up an entry given twice", () => {
    const builder = new ProgramBuilder();
    const x = builder.column(builder.family("x"), -1, 1, 0, infinity);
    const r = builder.row(builder.family("r"), -1, 6, infinity);
    builder.entry(r, x, 1);
    builder.entry(r, x, 2);
    expect(writeMps(builder.assemble("twice")).match(/^ x r 3$/gm)).toHaveLength(1);
  });

  it("refuses a blank in a name, a name used twice, bounds that cross and a cost that is not a number", () => {
    const with1 = (names: readonly string[], cost = 1, lower = 0) => {
      const builder = new ProgramBuilder();
      for (const name of names) builder.column(builder.family(name), -1, cost, lower, 5);
      return () => writeMps(builder.assemble("refused"));
    };
    expect(with1(["a b"])).toThrow(/"a b"/);
    expect(with1(["a", "a"])).toThrow(/two of the name a/);
    expect(with1(["a"], 1, 6)).toThrow(/bounds 6 to 5/);
    expect(with1(["a"], Number.NaN)).toThrow(/NaN/);
    expect(with1(["a"])).not.toThrow();
  });

  it("writes a full year in pieces within 3 s", () => {
    const began = performance.now();
    let characters = 0;
    let longest = 0;
    for (const chunk of mpsChunks(fullYear)) {
      characters += chunk.length;
      longest = Math.max(longest, chunk.length);
    }
    expect(fullYear.rows).toBeGreaterThan(50_000);
    expect(characters).toBeGreaterThan(1_000_000);
    expect(longest).toBeLessThan(200_000);
    expect(performance.now() - began).toBeLessThan(3000);
  });
});
