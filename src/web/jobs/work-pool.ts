import { MessageChannel, receiveMessageOnPort } from "node:worker_threads";
import { Piscina } from "piscina";
import type { Services } from "../services.ts";
import { type PartRun, spreadCurve } from "./spread-curve.ts";
import type { WorkAnswer, WorkMessage, WorkOrder } from "./work.ts";

/** How long a solver may take to heed the flag before its thread is ended. */
const patience_ms = 2000;

/** Long work in worker threads, so that pages are answered meanwhile. */
export class WorkPool {
  readonly #pool: Piscina;
  readonly #threads: number;

  constructor(threads = 1) {
    this.#threads = threads;
    const fromSources = import.meta.url.endsWith(".ts");
    this.#pool = new Piscina({
      filename: new URL(fromSources ? "./worker.boot.mjs" : "./worker.js", import.meta.url).href,
      name: "work",
      minThreads: 0,
      maxThreads: threads,
      idleTimeout: 60_000,
    });
  }

  readonly doWork: Services["doWork"] = (work, listeners) =>
    work.kind === "curve"
      ? spreadCurve(work, { ...listeners, threads: this.#threads, run: this.#run })
      : this.#run(work, listeners);

  readonly #run: PartRun = async (work, { onProgress, onFound, signal }) => {
    const channel = new MessageChannel();
    const stop = new Int32Array(new SharedArrayBuffer(4));
    const tell = (message: WorkMessage) => {
      if ("point" in message) onFound?.(message);
      else onProgress(message);
    };
    channel.port2.on("message", tell);
    const end = new AbortController();
    let timer: NodeJS.Timeout | undefined;
    const onStop = () => {
      Atomics.store(stop, 0, 1);
      timer = setTimeout(() => end.abort(), patience_ms);
    };
    signal.addEventListener("abort", onStop, { once: true });
    try {
      const order: WorkOrder = { work, port: channel.port1, stop };
      const answer = (await this.#pool.run(order, {
        transferList: [channel.port1],
        signal: end.signal,
      })) as WorkAnswer;
      // The answer may overtake what was told last.
      for (let last = receiveMessageOnPort(channel.port2); last; last = receiveMessageOnPort(channel.port2))
        tell(last.message as WorkMessage);
      return answer;
    } finally {
      clearTimeout(timer);
      signal.removeEventListener("abort", onStop);
      channel.port2.close();
    }
  };

  async close(): Promise<void> {
    await this.#pool.destroy();
  }
}
