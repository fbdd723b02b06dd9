import { afterAll, describe, expect, it } from "vitest";
import type { Progress } from "../../src/app/types.ts";
import { WorkPool } from "../../src/web/jobs/work-pool.ts";
import { smallBundle } from "../support/small-bundle.ts";

describe("WorkPool", () => {
  const pool = new WorkPool();
  afterAll(() => pool.close());
  const work = {
    kind: "size",
    method: "typical-days",
    yearSolver: "interior-point",
    bundle: smallBundle(),
  } as const;

  it("sizes a study in a thread of its own, telling how far it is, while this thread goes on", async () => {
    const told: Progress[] = [];
    let turns = 0;
    const clock = setInterval(() => {
      turns += 1;
    }, 20);
    const answer = await pool.doWork(work, {
      onProgress: (progress) => told.push(progress),
      signal: new AbortController().signal,
    });
    clearInterval(clock);
    expect(answer.kind).toBe("sized");
    expect(answer.kind === "sized" && answer.sized.hours.networks[0]!.demand_kW).toBeInstanceOf(Float64Array);
    expect(told.length).toBeGreaterThan(2);
    expect(turns).toBeGreaterThan(5);
  });

  it("stops within seconds, and the next work is done", async () => {
    const stop = new AbortController();
    let stoppedAt = 0;
    const broken = pool.doWork(work, {
      signal: stop.signal,
      onProgress: () => {
        if (stoppedAt === 0) stoppedAt = performance.now();
        stop.abort();
      },
    });
    await expect(broken).rejects.toThrow();
    expect(performance.now() - stoppedAt).toBeLessThan(10_000);
    const refused = await pool.doWork(
      { ...work, bundle: { ...work.bundle, files: new Map() } },
      { onProgress: () => {}, signal: new AbortController().signal },
    );
    expect(refused.kind).toBe("refused");
  });
});
