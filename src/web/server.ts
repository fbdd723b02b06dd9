import { resolve } from "node:path";
import { StudyStore } from "../store/study-store.ts";
import { buildApp } from "./build-app.ts";
import { WorkPool } from "./jobs/work-pool.ts";
import { realServices } from "./real-services.ts";
import type { Services } from "./services.ts";

export interface ServerOptions {
  readonly port: number;
  readonly dataDir: string;
  readonly logger?: boolean;
}

/**
 * Serves the pages on this machine only. Where the folder holds no study yet, the worked example is put
 * there and sized: on typical days before the first page is served, then on the full year.
 */
export async function startServer({ port, dataDir, logger = false }: ServerOptions) {
  const store = new StudyStore({ root: resolve(dataDir) });
  const pool = new WorkPool();
  const today = () => new Date().toISOString().slice(0, 10);
  const services = realServices({ store, doWork: pool.doWork, today });
  const { app, jobs } = await buildApp({ services, logger });
  app.addHook("onClose", async () => pool.close());

  const example = (await store.list()).length === 0 ? await openExample(services) : null;
  const address = await app.listen({ port, host: "127.0.0.1" });
  if (example !== null) jobs.start(example, ["full-year", "curve"]);
  process.stdout.write(`Noonkeep serves its pages at ${address}; studies are kept in ${resolve(dataDir)}\n`);
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => void app.close().then(() => process.exit(0)));
  }
  return { address, close: () => app.close() };
}

/** Keeps the worked example as the first study, sized on typical days, so that the first page has an answer. */
async function openExample({ store, exampleBundle, doWork }: Services): Promise<string> {
  process.stdout.write("Sizing the worked example on typical days, this once\n");
  const id = await store.create(exampleBundle());
  const kept = await store.read(id);
  if (kept === null) throw new Error("the worked example was not kept");
  const answer = await doWork(
    { kind: "size", method: "typical-days", bundle: kept },
    { onProgress: () => {}, signal: new AbortController().signal },
  );
  if (answer.kind === "sized") await store.saveAnswer(id, kept.fingerprint, answer.sized);
  return id;
}
