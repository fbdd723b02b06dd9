import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { AreaCurve } from "../../src/core/study/result.ts";
import { runCli } from "../support/run-cli.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, webApp } from "../support/web-app.ts";

describe("the area curve of a study", () => {
  it("is the same through the pages and through the command line", async () => {
    const bundle = smallBundle();
    const { app, jobs, store } = await webApp();
    const id = await store.create(bundle);
    for (const work of ["quick", "curve"]) {
      await app.inject({ method: "POST", url: `/studies/${id}/progress`, ...form({ do: work }) });
      for (let n = 0; n < 600 && jobs.isRunning(id); n += 1)
        await new Promise((done) => setTimeout(done, 50));
      expect(jobs.of(id)).toMatchObject({ state: "done" });
    }
    const fromPages = (await app.inject(`/studies/${id}/curve.json`)).json<AreaCurve>();
    const csvFromPages = (await app.inject(`/studies/${id}/curve.csv`)).body;
    await app.close();

    const folder = mkdtempSync(join(tmpdir(), "noonkeep-curve-"));
    try {
      writeFileSync(join(folder, "study.json"), JSON.stringify(bundle.study));
      writeFileSync(join(folder, "weather.csv"), Buffer.from(bundle.files.get("weather.csv")!));
      const out = join(folder, "out");
      const run = runCli("curve", join(folder, "study.json"), "--out", out, "--method", "typical-days");
      expect(run.code, run.err).toBe(0);
      expect(run.err).toContain("simple controller at sixty sizes");
      expect(run.err).toContain("points");
      expect(JSON.parse(readFileSync(join(out, "curve.json"), "utf8"))).toEqual(fromPages);
      expect(readFileSync(join(out, "curve.csv"), "utf8")).toBe(csvFromPages);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
    expect(fromPages.lines.flatMap(({ points }) => points).every(({ by }) => by === "replay")).toBe(true);
    expect(fromPages.bound.map(({ by }) => by)).toEqual(new Array(7).fill("lp"));
  }, 90_000);
});
