import { availableParallelism } from "node:os";
import { resolve } from "node:path";
import { StudyStore } from "../store/study-store.ts";
import { buildApp } from "./build-app.ts";
import { WorkPool } from "./jobs/work-pool.ts";
import { realServices } from "./real-services.ts";

/** Each thread that solves a full year holds its program. */
const mostThreads = 4;

export interface ServerOptions {
  readonly port: number;
  readonly dataDir: string;
  readonly logger?: boolean;
}

/**
 * Serves the pages on this machine only. Where the folder holds no study yet, the worked example is put
 * there and sized on the full year while its first page is read already.
 */
export async function startServer({ port, dataDir, logger = false }: ServerOptions) {
  const store = new StudyStore({ root: resolve(dataDir) });
  const pool = new WorkPool(Math.min(mostThreads, availableParallelism()));
  const today = () => new Date().toISOString().slice(0, 10);
  const services = realServices({ store, doWork: pool.doWork, today });
  const { app, jobs } = await buildApp({ services, logger });
  app.addHook("onClose", async () => pool.close());

  const example = (await store.list()).length === 0 ? await store.create(services.exampleBundle()) : null;
  const address = await app.listen({ port, host: "127.0.0.1" });
  if (example !== null) jobs.start(example, ["full-year", "two-day", "curve"]);
  process.stdout.write(`Noonkeep serves its pages at ${address}; studies are kept in ${resolve(dataDir)}\n`);
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => void app.close().then(() => process.exit(0)));
  }
  return { address, close: () => app.close() };
}
