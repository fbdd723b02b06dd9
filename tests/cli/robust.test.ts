import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { resolveFutures } from "../../src/app/resolve-futures.ts";
import type { RobustAnswer } from "../../src/core/study/robust/robust-answer.ts";
import type { Future, Study } from "../../src/core/study/schema/study.ts";
import { expectClose } from "../support/close.ts";
import { runCli } from "../support/run-cli.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, upload, webApp } from "../support/web-app.ts";

const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../shared", import.meta.url));
const phoenix = (ending: string) => join(shared, "data", "weather", `USA_AZ_Phoenix_722780_TMY3.${ending}`);
const both = existsSync(phoenix("csv")) && existsSync(phoenix("epw"));

const folder = mkdtempSync(join(tmpdir(), "noonkeep-robust-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const paths: Future[] = [
  { id: "cheap", name: "Cheap oil", probability: 0.4, fuelPriceFactor: 0.6 },
  { id: "dear", name: "Dear oil, busy works", probability: 0.6, fuelPriceFactor: 1.5, demandFactor: 1.1 },
];

/** An answer without the times that a solver took. */
const withoutTimes = (answer: RobustAnswer) => ({ ...answer, proof: { ...answer.proof, solve_s: 0 } });

function write(study: Study, files: ReadonlyMap<string, Uint8Array>) {
  for (const [name, bytes] of files) writeFileSync(join(folder, name), bytes);
  const path = join(folder, "study.json");
  writeFileSync(path, JSON.stringify(study));
  return path;
}

describe("a study with possible years", () => {
  it("comes to the same sizes through the pages and through the command line, and its page shows them", async () => {
    const { study, files } = smallBundle();
    const named = { ...study, futures: paths };
    const { app } = await webApp();
    const opened = await app.inject({
      method: "POST",
      url: "/studies/upload",
      ...upload([
        { field: "study", name: "study.json", text: JSON.stringify(named) },
        { field: "files", name: "weather.csv", text: Buffer.from(files.get("weather.csv")!) },
      ]),
    });
    expect(opened.statusCode, opened.body.slice(0, 500)).toBe(303);
    const page = String(opened.headers.location).split("#")[0]!;
    await app.inject({ method: "POST", url: `${page}/progress`, ...form({ do: "robust" }) });
    const work = async () =>
      (await app.inject({ url: `${page}/progress.json` })).json<{
        running: boolean;
        job: { state: string };
      }>();
    for (let i = 0; i < 600 && (await work()).running; i += 1)
      await new Promise((done) => setTimeout(done, 100));
    expect((await work()).job.state).toBe("done");
    const ended = await app.inject({ url: `${page}/progress` });
    expect(ended.headers.location).toMatch(/#futures$/);
    const fromPages = (await app.inject({ url: `${page}/robust.json` })).json<RobustAnswer>();

    const out = join(folder, "out");
    const cli = runCli("robust", write(named, files), "--out", out);
    expect(cli.code, cli.err).toBe(0);
    const fromCli: RobustAnswer = JSON.parse(readFileSync(join(out, "robust.json"), "utf8"));
    expect(withoutTimes(fromCli)).toEqual(withoutTimes(fromPages));
    expect(fromCli.valueOfKnowing).toBeGreaterThan(0);
    expect(fromCli.ownSizes.valueOfCommonSizes).toBeGreaterThan(0);
    expect(cli.out).toContain(fromCli.sentences[0]);

    const shown = (await app.inject({ url: page })).body;
    const section = shown.slice(
      shown.indexOf('<section id="futures"'),
      shown.indexOf('<section id="prices"'),
    );
    for (const sentence of fromCli.sentences) expect(section).toContain(sentence.replaceAll("'", "&#39;"));
    expect(section).toContain("Dear oil, busy works");
    expect(section).not.toContain("stale-note");

    // Another probability greys these sizes; together they are not 1, so nothing can be started.
    const revision = /name="revision" value="([^"]+)"/.exec(shown)![1]!;
    const edit = { revision, at: "at-futures", "futures/0/probability": "0.2" };
    expect((await app.inject({ method: "POST", url: `${page}/edit`, ...form(edit) })).statusCode).toBe(303);
    const changed = (await app.inject({ url: page })).body;
    expect(changed).toContain("The study or its possible years were changed since these sizes were found.");
    expect(changed).toContain("The probabilities of the possible years sum to 0.8; they must sum to 1.");
    expect(changed).not.toContain('value="robust"');
    await app.close();
  });

  it("tells every fault of its possible years at once, and is sized for its own year all the same", () => {
    const { study, files } = smallBundle();
    const futures = [
      { ...paths[0]!, probability: 0.4 },
      { ...paths[1]!, id: "cheap", probability: 0.5, weatherFile: "missing.csv" },
    ];
    const outcome = resolveFutures({ study: { ...study, futures }, files });
    expect(outcome.ok ? [] : outcome.problems.map(({ code, place }) => [code, place.path])).toEqual([
      ["FUTURES_PROBABILITIES", "futures"],
      ["FUTURES_ID_TWICE", "futures/1/id"],
      ["STUDY_FILE_MISSING", "futures/1/weatherFile"],
    ]);
    const none = resolveFutures({ study, files });
    expect(none.ok ? [] : none.problems.map(({ code }) => code)).toEqual(["FUTURES_NONE"]);

    const path = write({ ...study, futures: [{ ...paths[0]!, probability: 0.4 }] }, files);
    const check = runCli("check", path);
    expect(check.code).toBe(1);
    expect(check.err).toContain("sum to 0.4; they must sum to 1");
    const robust = runCli("robust", path, "--out", join(folder, "none"));
    expect(robust.code).toBe(1);
    expect(existsSync(join(folder, "none"))).toBe(false);
  });

  it("turns prices, heat, cold and water by its factors, and forgives thirds", () => {
    const { study, files } = smallBundle();
    const futures = ["a", "b", "c"].map((id) => ({
      id,
      name: id,
      probability: 0.33333,
      fuelPriceFactor: 2,
      electricityPriceFactor: 3,
      demandFactor: 1.5,
    }));
    const outcome = resolveFutures({ study: { ...study, futures }, files });
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
    const { own, years } = outcome.value;
    expectClose(
      years.reduce((all, { future }) => all + future.probability, 0),
      1,
      1e-12,
    );
    const [load] = years[0]!.resolved.loads;
    expect(load).toMatchObject({ kind: "fixed-heat" });
    if (load?.kind === "fixed-heat") expectClose(load.heat_kW[4000]!, 750, 1e-12);
    expectClose(years[0]!.resolved.fuelPrices_per_kWh[0]![9]!, 0.14, 1e-12);
    expectClose(years[0]!.resolved.electricityPrice_per_kWh[9]!, 0.3, 1e-12);
    expectClose(own.fuelPrices_per_kWh[0]![9]!, 0.07, 1e-12);
  });

  it.skipIf(!both)(
    "finds one real year, read from two files of different format, to be the same year (USA_AZ_Phoenix_722780_TMY3)",
    () => {
      const { study } = smallBundle();
      const files = new Map([
        ["phoenix.csv", readFileSync(phoenix("csv"))],
        ["phoenix.epw", readFileSync(phoenix("epw"))],
      ]);
      const twice: Study = {
        ...study,
        weather: { file: "phoenix.csv" },
        futures: [
          { id: "tmy3", name: "TMY3", probability: 0.5 },
          { id: "epw", name: "EPW", probability: 0.5, weatherFile: "phoenix.epw" },
        ],
      };
      const out = join(folder, "real");
      const run = runCli("robust", write(twice, files), "--out", out);
      expect(run.code, run.err).toBe(0);
      const answer: RobustAnswer = JSON.parse(readFileSync(join(out, "robust.json"), "utf8"));
      const [tmy3, epw] = answer.years;
      // Both files hold the same hours, but for what the formats round: wind, humidity and pressure.
      expectClose(epw!.annualCost, tmy3!.annualCost, 2e-3);
      expect(answer.valueOfKnowing).toBeLessThanOrEqual(1e-4 * answer.expected.annualCost);
      expect(answer.proof.relativeGap).toBeLessThanOrEqual(1e-6);
    },
  );
});
