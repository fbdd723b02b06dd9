import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { weatherFromMeans } from "../../src/app/make-weather.ts";
import { exampleDefinition } from "../../src/store/example-files.ts";
import { runCli } from "../support/run-cli.ts";

let folder: string;
const at = (name: string) => join(folder, name);
const { study, means } = exampleDefinition();

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "noonkeep-year-"));
  // The weather file that the study names is not there yet: that is what the command is for.
  writeFileSync(at("study.json"), JSON.stringify(study));
  writeFileSync(at("means.json"), JSON.stringify(means));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("noonkeep weather-year", () => {
  it("writes the year that the pages would make", () => {
    const run = runCli(
      "weather-year",
      at("study.json"),
      "--means",
      at("means.json"),
      "--seed",
      "9",
      "--out",
      at("y.csv"),
    );
    expect(run.err).toBe("");
    expect(run.code).toBe(0);
    expect(run.out).toContain("made from twelve monthly means");
    const made = weatherFromMeans(study.site, means, 9, "y.csv");
    expect(readFileSync(at("y.csv"), "utf8")).toBe(made.ok ? made.value.text : "");
  });

  it("makes a cloudless year of the same air", () => {
    const run = runCli(
      "weather-year",
      at("study.json"),
      "--means",
      at("means.json"),
      "--clear-sky",
      "--out",
      at("c.csv"),
    );
    expect(run.code, run.err).toBe(0);
    expect(readFileSync(at("c.csv"), "utf8")).toContain("# made_from: clear-sky");
  });

  it("tells what is wrong, all of it, and writes nothing", () => {
    writeFileSync(at("bad.csv"), "month,clearness\n1,2\n");
    const bad = runCli("weather-year", at("study.json"), "--means", at("bad.csv"), "--out", at("none.csv"));
    expect(bad.code).toBe(1);
    expect(bad.err).toContain("The input has 6 faults");
    expect(() => readFileSync(at("none.csv"))).toThrow();
    const idle = runCli("weather-year", at("study.json"), "--out", at("none.csv"));
    expect(idle.code).toBe(1);
    expect(idle.err).toContain("--means");
  });
});
