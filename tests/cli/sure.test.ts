import { mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { SurenessAnswer } from "../../src/core/sureness/sureness-answer.ts";
import { runCli } from "../support/run-cli.ts";
import { smallBundle } from "../support/small-bundle.ts";

it("noonkeep sure varies a sized study and says how sure it is; the same seed gives the same file", async () => {
  const folder = await mkdtemp(join(tmpdir(), "noonkeep-sure-"));
  const { study, files } = smallBundle();
  study.sureness = { ranges: [], draws: 40, seed: 5 };
  const path = join(folder, "study.json");
  await writeFile(path, JSON.stringify(study));
  for (const [name, bytes] of files) await writeFile(join(folder, name), bytes);
  runCli("size", path, "--method", "typical-days", "--out", folder);
  const sure = (out: string) =>
    runCli("sure", path, "--result", join(folder, "result.json"), "--out", join(folder, out));
  const first = sure("a");
  expect(first.code).toBe(0);
  expect(first.out).toMatch(/Net present value of the same plant/);
  expect(first.out).toMatch(/Of 40 draws \(seed 5, 1 weather year\)/);
  sure("b");
  const text = await readFile(join(folder, "a", "sureness.json"), "utf8");
  expect(await readFile(join(folder, "b", "sureness.json"), "utf8")).toBe(text);
  expect(text).not.toMatch(/NaN/);
  const { draws, bars } = JSON.parse(text) as SurenessAnswer;
  expect(bars.length).toBeGreaterThanOrEqual(12);
  expect(draws!.fuelCostAvoided.p10).toBeLessThan(draws!.fuelCostAvoided.p50);
  expect(draws!.fuelCostAvoided.p50).toBeLessThan(draws!.fuelCostAvoided.p90);

  const wrong = runCli("sure", path, "--result", path, "--out", folder);
  expect(wrong.code).not.toBe(0);
  expect(wrong.err).toMatch(/is no result of a sizing/);
}, 120_000);
