import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Result } from "../../src/core/study/result.ts";
import { runCli } from "../support/run-cli.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, upload, webApp } from "../support/web-app.ts";

/** A result without the times that a solver took. */
function withoutTimes(result: Result): Result {
  const typicalDays = result.typicalDays === null ? null : { ...result.typicalDays, solve_s: 0 };
  return { ...result, typicalDays, proof: { ...result.proof, solve_s: 0 } };
}

describe("a study with its files", () => {
  it.each([
    ["typical days", "quick", "typical-days"],
    ["the full year with both replays", "full", "full-year"],
  ])(
    "comes on %s to the same result and hours through the pages and through the command line",
    async (_what, asked, method) => {
      const { study, files } = smallBundle();
      const weather = Buffer.from(files.get("weather.csv")!);
      const json = JSON.stringify(study);

      const { app } = await webApp();
      const opened = await app.inject({
        method: "POST",
        url: "/studies/upload",
        ...upload([
          { field: "study", name: "study.json", text: json },
          { field: "files", name: "weather.csv", text: weather },
        ]),
      });
      expect(opened.statusCode, opened.body.slice(0, 500)).toBe(303);
      const page = String(opened.headers.location).split("#")[0]!;
      await app.inject({ method: "POST", url: `${page}/progress`, ...form({ do: asked }) });
      const work = async () =>
        (await app.inject({ url: `${page}/progress.json` })).json<{
          running: boolean;
          job: { state: string };
        }>();
      for (let i = 0; i < 600 && (await work()).running; i += 1) {
        await new Promise((done) => setTimeout(done, 100));
      }
      expect((await work()).job.state).toBe("done");
      const fromPages = (await app.inject({ url: `${page}/result.json` })).json<Result>();
      const hoursFromPages = (await app.inject({ url: `${page}/hours.csv` })).body;
      await app.close();

      const folder = mkdtempSync(join(tmpdir(), "noonkeep-same-"));
      try {
        writeFileSync(join(folder, "study.json"), json);
        writeFileSync(join(folder, "weather.csv"), weather);
        const out = join(folder, "out");
        const run = runCli("size", join(folder, "study.json"), "--out", out, "--method", method);
        expect(run.code, run.err).toBe(0);
        const fromCli: Result = JSON.parse(readFileSync(join(out, "result.json"), "utf8"));
        expect(withoutTimes(fromCli)).toEqual(withoutTimes(fromPages));
        expect(fromCli.replay!.twoDay === null).toBe(method === "typical-days");
        expect(readFileSync(join(out, "hours.csv"), "utf8")).toBe(hoursFromPages);
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  );
});
