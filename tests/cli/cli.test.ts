import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Result } from "../../src/core/study/result.ts";
import { runCli } from "../support/run-cli.ts";
import { smallBundle } from "../support/small-bundle.ts";

let folder: string;
const at = (...parts: string[]) => join(folder, ...parts);
const resultIn = (dir: string): Result => JSON.parse(readFileSync(at(dir, "result.json"), "utf8"));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "noonkeep-cli-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the command line on the worked example", () => {
  it("writes the example, finds no fault in it, and sizes it on typical days", () => {
    expect(runCli("example", at("example")).code).toBe(0);
    const check = runCli("check", at("example", "study.json"));
    expect(check.err).toBe("");
    expect(check.code).toBe(0);

    const size = runCli(
      "size",
      at("example", "study.json"),
      "--out",
      at("out"),
      "--method",
      "typical-days",
      "--mps",
      at("program.mps"),
    );
    expect(size.code, size.err).toBe(0);
    for (const name of ["result.json", "hours.csv", "summary.html"])
      expect(existsSync(at("out", name))).toBe(true);
    expect(readFileSync(at("program.mps"), "utf8")).toMatch(/^NAME/m);
  });

  it("gives an interesting optimum: neither zero nor at a limit, with step-down and storage used", () => {
    const { annual, limits, networks, sizes, status } = resultIn("out");
    expect(status).toBe("optimal");
    expect(annual.solarFraction).toBeGreaterThan(0.3);
    expect(annual.solarFraction).toBeLessThan(0.99);
    expect(limits.filter(({ binding }) => binding)).toEqual([]);
    expect(sizes.stores.some(({ capacity_kWh }) => capacity_kWh > 1000)).toBe(true);
    expect(networks.reduce((all, { stepIn_kWh }) => all + stepIn_kWh, 0)).toBeGreaterThan(10_000);
    expect(networks.reduce((all, { discharge_kWh }) => all + discharge_kWh, 0)).toBeGreaterThan(10_000);
  });

  it("writes hours whose every row closes on every network, and whose sums are the result's", () => {
    const [header = "", ...rows] = readFileSync(at("out", "hours.csv"), "utf8").trimEnd().split("\n");
    const names = header.split(",");
    expect(rows.length).toBe(8760);
    expect(names.slice(0, 2)).toEqual(["hour", "local_time"]);
    const { annual, networks } = resultIn("out");
    const column = (name: string) => {
      const index = names.indexOf(name);
      expect(index, name).toBeGreaterThan(0);
      return rows.map((row) => Number(row.split(",")[index]));
    };
    let backup_kWh = 0;
    for (const { id } of networks) {
      const [solar, backup, discharge, stepIn, unmet] = [
        "solar",
        "backup",
        "discharge",
        "stepIn",
        "unmet",
      ].map((name) => column(`${id}_${name}_kW`)) as [number[], number[], number[], number[], number[]];
      const [demand, charge, stepOut] = ["demand", "charge", "stepOut"].map((name) =>
        column(`${id}_${name}_kW`),
      ) as [number[], number[], number[]];
      rows.forEach((_, t) => {
        const supply = solar[t]! + backup[t]! + discharge[t]! + stepIn[t]! + unmet[t]!;
        expect(Math.abs(supply - demand[t]! - charge[t]! - stepOut[t]!)).toBeLessThan(1e-6);
      });
      backup_kWh += backup.reduce((all, value) => all + value, 0);
    }
    expect(backup_kWh).toBeCloseTo(annual.backup_kWh, 3);
  });

  it("carries a proof whose gap, residuals and recomputed objective hold", () => {
    const { proof } = resultIn("out");
    expect(proof.status).toBe("optimal");
    expect(proof.relativeGap).toBeLessThan(1e-6);
    expect(proof.balanceResidual_kW).toBeLessThan(1e-6);
    expect(Math.abs(proof.recomputedObjective / proof.objective - 1)).toBeLessThan(1e-6);
  });

  it("takes the summary as a study and comes to the same figures", () => {
    const again = runCli("size", at("out", "summary.html"), "--out", at("again"), "--method", "typical-days");
    expect(again.code, again.err).toBe(0);
    const first = resultIn("out");
    const second = resultIn("again");
    expect(second.annual).toEqual(first.annual);
    expect(second.sizes).toEqual(first.sizes);
    expect(readFileSync(at("again", "hours.csv"), "utf8")).toBe(readFileSync(at("out", "hours.csv"), "utf8"));
  });
});

describe("the solver of the full year", () => {
  it("is the engine, and highs where asked, with the same least cost and each other's opinion", () => {
    const { study, files } = smallBundle();
    writeFileSync(at("small.json"), JSON.stringify(study));
    writeFileSync(at("weather.csv"), files.get("weather.csv")!);
    const engine = runCli("size", at("small.json"), "--out", at("engine"));
    expect(engine.code, engine.err).toBe(0);
    const highs = runCli("size", at("small.json"), "--out", at("highs"), "--solver", "highs");
    expect(highs.code, highs.err).toBe(0);
    const first = resultIn("engine");
    const second = resultIn("highs");
    expect(first.proof).toMatchObject({ method: "full-year", solver: "interior point", status: "optimal" });
    expect(second.proof).toMatchObject({ method: "full-year", solver: "highs", status: "optimal" });
    expect(Math.abs(first.proof.objective / second.proof.objective - 1)).toBeLessThan(1e-6);
    expect(second.proof.secondOpinion!.solver).toBe("interior point");
    expect(second.proof.secondOpinion!.relativeDifference).toBeLessThan(1e-6);
    for (const { replay, levelised } of [first, second]) {
      for (const { annualCost, gap_per_year } of [replay!.simple, replay!.twoDay!]) {
        expect(gap_per_year).toBeGreaterThan(-1e-6 * annualCost);
        expect(Math.abs(annualCost - gap_per_year - levelised.annualCost)).toBeLessThan(0.01);
      }
    }
    expect(readFileSync(at("engine", "summary.html"), "utf8")).toContain("A plan two days ahead would");
  });

  it("is refused where there is none of that name", () => {
    const { code, err } = runCli("size", at("small.json"), "--out", at("x"), "--solver", "guess");
    expect(code).toBe(1);
    expect(err).toContain("interior-point");
    expect(existsSync(at("x"))).toBe(false);
  });
});

describe("the command line on faulty input", () => {
  it("lists every fault on stderr, exits with 1 and writes nothing", () => {
    const study = JSON.parse(readFileSync(at("example", "study.json"), "utf8"));
    study.site.latitude_deg = 124;
    study.networks[0].supply_C = "hot";
    study.loads[0].network = "nowhere";
    writeFileSync(at("example", "faulty.json"), JSON.stringify(study));
    const { code, err } = runCli("size", at("example", "faulty.json"), "--out", at("nothing"));
    expect(code).toBe(1);
    expect(err).toContain("latitude_deg");
    expect(err).toContain("supply_C");
    expect(err).not.toMatch(/\bat .*\.ts:\d/);
    expect(existsSync(at("nothing"))).toBe(false);
  });

  it("names a file that is not there, and a study that is not there", () => {
    const study = JSON.parse(readFileSync(at("example", "study.json"), "utf8"));
    study.weather.file = "missing.csv";
    writeFileSync(at("example", "lost.json"), JSON.stringify(study));
    const lost = runCli("check", at("example", "lost.json"));
    expect(lost.code).toBe(1);
    expect(lost.err).toContain("missing.csv");
    const gone = runCli("check", at("gone.json"));
    expect(gone.code).toBe(1);
    expect(gone.err).toContain("gone.json");
  });

  it("says which limits conflict and by how much", () => {
    const study = JSON.parse(readFileSync(at("example", "study.json"), "utf8"));
    study.limits = { land_m2: 4000, leastSolarFraction: 0.8 };
    writeFileSync(at("example", "tight.json"), JSON.stringify(study));
    const { code, err } = runCli(
      "size",
      at("example", "tight.json"),
      "--out",
      at("tight"),
      "--method",
      "typical-days",
    );
    expect(code).toBe(1);
    expect(err).toMatch(/solar fraction reaches 0\.\d+ at most/);
    expect(err).toMatch(/m² of land are needed/);
    const { status, conflicts } = resultIn("tight");
    expect(status).toBe("infeasible");
    expect(conflicts.length).toBe(2);
  });

  it("refuses a wrong call with exit code 1", () => {
    expect(runCli("size", at("example", "study.json"), "--out", at("x"), "--method", "guess").code).toBe(1);
    expect(runCli("frobnicate").code).toBe(1);
    expect(runCli("serve", "--port", "70000").code).toBe(1);
    expect(runCli("--help").code).toBe(0);
  });
});
