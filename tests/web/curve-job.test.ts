import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { drawCurve } from "../../src/app/draw-curve.ts";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import { sizeStudy } from "../../src/app/size-study.ts";
import type { ResolvedStudy, SizedStudy } from "../../src/app/types.ts";
import { StoppedError } from "../../src/core/dispatch/program.ts";
import type { AreaCurve } from "../../src/core/study/result.ts";
import type { Solvers } from "../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../src/solver/solvers.ts";
import { spreadCurve } from "../../src/web/jobs/spread-curve.ts";
import type { Work, WorkAnswer } from "../../src/web/jobs/work.ts";
import { workOn } from "../../src/web/jobs/work-on.ts";
import { WorkPool } from "../../src/web/jobs/work-pool.ts";
import type { WorkListeners } from "../../src/web/services.ts";
import { sampleCurve } from "../support/sample-charts.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { webApp } from "../support/web-app.ts";

const bundle = smallBundle();
let solvers: Solvers;
let resolved: ResolvedStudy;
let sized: SizedStudy;
/** The whole curve in this thread, and all that was told on the way. */
let grown: AreaCurve[];
let whole: AreaCurve;
beforeAll(async () => {
  solvers = await loadSolvers();
  const outcome = resolveStudy(bundle);
  if (!outcome.ok) throw new Error("the small study is not complete");
  resolved = outcome.value;
  const { result, hours } = sizeStudy(resolved, { method: "typical-days", replays: "none", solvers });
  sized = { result, hours };
  grown = [];
  whole = drawCurve(resolved, { result, solvers, onCurve: (curve) => grown.push(curve) });
}, 60_000);

describe("a curve that is drawn", () => {
  it("comes with its lines at once and then with one point of the bound after the other", () => {
    expect(grown).toHaveLength(1 + 7);
    expect(grown.map(({ bound }) => bound.length)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    for (const { lines } of grown) expect(lines).toEqual(whole.lines);
    expect(grown.at(-1)).toEqual(whole);
    expect(whole.bound.map(({ aperture_m2 }) => aperture_m2)).toEqual(whole.boundAt_m2);
    expect(whole.remarks).toEqual([]);
  });

  it("stops between two points, and what was found was told", () => {
    const told: AreaCurve[] = [];
    const stopped = () => told.length > 2;
    expect(() =>
      drawCurve(resolved, {
        result: sized.result,
        solvers,
        onCurve: (curve) => told.push(curve),
        shouldStop: stopped,
      }),
    ).toThrow(StoppedError);
    expect(told.at(-1)!.bound).toHaveLength(2);
  });
});

describe("a curve that is dealt to threads", () => {
  const work = () => ({ kind: "curve", bundle, result: sized.result }) as const;
  const listeners = (onCurve: (curve: AreaCurve) => void): WorkListeners => ({
    onProgress: () => {},
    onCurve,
    signal: new AbortController().signal,
  });

  it("goes to each thread in turn, and is the same curve", async () => {
    const parts: Work[] = [];
    const told: AreaCurve[] = [];
    const answer = await spreadCurve(work(), {
      ...listeners((curve) => told.push(curve)),
      threads: 3,
      run: async (part, { onFound }): Promise<WorkAnswer> => {
        parts.push(part);
        if (part.kind === "curve-lines") return { kind: "curve", curve: grown[0]! };
        if (part.kind !== "curve-bound") throw new Error(part.kind);
        for (const target of part.targets) {
          const point = whole.bound.find(
            ({ aperture_m2 }) => target.at === "total" && aperture_m2 === target.aperture_m2,
          );
          onFound?.({ target, point: point! });
        }
        return { kind: "curve-bound", remarks: ["A remark."] };
      },
    });
    expect(parts.map(({ kind }) => kind)).toEqual([
      "curve-lines",
      "curve-bound",
      "curve-bound",
      "curve-bound",
    ]);
    const dealt = parts.flatMap((part) => (part.kind === "curve-bound" ? [part.targets.length] : []));
    expect(dealt).toEqual([3, 2, 2]);
    expect(answer).toEqual({ kind: "curve", curve: { ...whole, remarks: ["A remark."] } });
    expect(told.map(({ bound }) => bound.length)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  });

  it("ends all threads where one fails", async () => {
    let ended = 0;
    const failing = spreadCurve(work(), {
      ...listeners(() => {}),
      threads: 2,
      run: (part, { signal }): Promise<WorkAnswer> => {
        if (part.kind === "curve-lines") return Promise.resolve({ kind: "curve", curve: grown[0]! });
        if (part.kind === "curve-bound" && part.targets.length === 4)
          return Promise.reject(new Error("out of memory"));
        return new Promise((_, fail) => {
          signal.addEventListener("abort", () => {
            ended += 1;
            fail(new Error("ended"));
          });
        });
      },
    });
    await expect(failing).rejects.toThrow("out of memory");
    expect(ended).toBe(1);
  });

  describe("of the pool", () => {
    const pool = new WorkPool(2);
    afterAll(() => pool.close());
    it("is the curve that one thread draws", async () => {
      const told: AreaCurve[] = [];
      const answer = await pool.doWork(
        work(),
        listeners((curve) => told.push(curve)),
      );
      expect(answer).toEqual({ kind: "curve", curve: whole });
      expect(told).toHaveLength(8);
    }, 60_000);
  });
});

describe("the job of a curve", () => {
  const kept = async (doWork: (work: Work, listeners: WorkListeners) => Promise<WorkAnswer>) => {
    const { app, jobs, store } = await webApp({ doWork });
    const id = await store.create(bundle);
    const { fingerprint } = (await store.read(id))!;
    await store.saveAnswer(id, fingerprint, sized);
    const get = (path: string) => app.inject(`/studies/${id}${path}`);
    const until = async (holds: () => boolean) => {
      for (let n = 0; n < 300 && !holds(); n += 1) await new Promise((wake) => setTimeout(wake, 10));
      expect(holds()).toBe(true);
    };
    return { app, jobs, store, id, get, until };
  };

  it("keeps the curve as it grows, shows it while it works, and keeps what was found where it is stopped", async () => {
    const { jobs, store, id, get, until } = await kept(
      (_, { onCurve, signal }) =>
        new Promise((_, fail) => {
          for (const curve of grown.slice(0, 4)) onCurve?.(curve);
          signal.addEventListener("abort", () => {
            // What comes after the stop is not kept.
            onCurve?.(whole);
            fail(new StoppedError("stopped"));
          });
        }),
    );
    jobs.start(id, ["curve"]);
    await until(() => jobs.of(id)?.curvePoints === 4);
    await until(() => jobs.isRunning(id));
    await new Promise((wake) => setTimeout(wake, 100));
    expect((await store.readCurve(id))!.curve).toEqual(grown[3]);
    const page = (await get("/progress")).body;
    expect(page).toContain("How much solar area pays?");
    expect(page).toContain("(3 of 7 found)");
    expect(page).toContain('data-points="4"');
    expect(page).toContain('<noscript><meta http-equiv="refresh"');
    expect((await get("/progress.json")).json()).toMatchObject({ job: { curvePoints: 4 } });
    expect((await get("")).body).toContain("3 of 7 points of the bound are found so far");
    jobs.stop(id);
    await new Promise((wake) => setTimeout(wake, 100));
    expect((await store.readCurve(id))!.curve).toEqual(grown[3]);
    expect((await get("")).body).toContain("3 of 7 points of the bound are found; drawing was stopped");
  });

  it("leads back to the curve when it is done", async () => {
    const { jobs, store, id, get, until } = await kept(async (work, { onProgress, onCurve, signal }) =>
      work.kind === "curve"
        ? { kind: "curve", curve: whole }
        : workOn(work, { solvers, onProgress, onCurve, shouldStop: () => signal.aborted }),
    );
    jobs.start(id, ["curve"]);
    await until(() => jobs.of(id)?.state === "done");
    expect((await store.readCurve(id))!.curve).toEqual(whole);
    const reply = await get("/progress");
    expect(reply.statusCode).toBe(303);
    expect(reply.headers.location).toBe(`/studies/${id}#curve`);
    const { body } = await get("");
    expect(body).toContain("Run hour by hour without foresight, the plant of least cost");
    expect(body).not.toContain("points of the bound are found");
  });

  it("takes a curve of before the replay for none", async () => {
    const { store, id, get } = await kept(() => Promise.reject(new Error("no work here")));
    const { optimumReplay: _, ...older } = sampleCurve();
    await store.saveCurve(id, "0", older as AreaCurve);
    expect(await store.readCurve(id)).toBeNull();
    expect((await get("")).body).toContain("Draw the area curve");
  });
});
