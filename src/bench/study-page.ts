import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { drawCurve } from "../app/draw-curve.ts";
import { exampleBundle } from "../app/example.ts";
import { sizeStudy } from "../app/size-study.ts";
import type { ResolvedStudy } from "../app/types.ts";
import type { Solvers } from "../core/study/sizing/solvers.ts";
import { exampleDefinition } from "../store/example-files.ts";
import { StudyStore } from "../store/study-store.ts";
import { buildApp } from "../web/build-app.ts";
import { realServices } from "../web/real-services.ts";
import { medianTime_s } from "./measure.ts";

/** Median time of a study's page from stored results, s; with the area curve where `withCurve` says so. */
export async function studyPageTime_s(
  resolved: ResolvedStudy,
  solvers: Solvers,
  withCurve: boolean,
): Promise<number> {
  const root = await mkdtemp(join(tmpdir(), "noonkeep-bench-"));
  const store = new StudyStore({ root });
  const noWork = () => Promise.reject(new Error("the bench starts no work"));
  const { app } = await buildApp({
    services: realServices({ store, doWork: noWork, today: () => "2000-01-01" }),
    requestsPerMinute: 100_000,
  });
  try {
    const id = await store.create(exampleBundle(exampleDefinition()));
    const kept = await store.read(id);
    if (kept === null) throw new Error("the study was not kept");
    const { result, hours } = sizeStudy(resolved, { method: "typical-days", solvers });
    await store.saveAnswer(id, kept.fingerprint, { result, hours });
    if (withCurve) {
      await store.saveCurve(id, kept.curveFingerprint, drawCurve(resolved, { result, solvers }));
    }
    const get = async () => {
      const reply = await app.inject({ url: `/studies/${id}`, headers: { host: "127.0.0.1" } });
      if (reply.statusCode !== 200) throw new Error(`the page answered ${reply.statusCode}`);
    };
    await get();
    return await medianTime_s(15, get);
  } finally {
    await app.close();
    await rm(root, { recursive: true, force: true });
  }
}
