import { loadSolvers } from "../../solver/solvers.ts";
import type { WorkAnswer, WorkOrder } from "./work.ts";
import { workOn } from "./work-on.ts";

const solvers = await loadSolvers();

/** Runs in a worker thread of the pool; progress goes out while the solver holds the thread. */
export function work({ work, port, stop }: WorkOrder): WorkAnswer {
  try {
    return workOn(work, {
      solvers,
      onProgress: (progress) => port.postMessage(progress),
      onFound: (found) => port.postMessage(found),
      shouldStop: () => Atomics.load(stop, 0) === 1,
    });
  } catch (error) {
    // An error of a solver package carries its whole source; name and message are enough.
    const { name, message } = error instanceof Error ? error : { name: "Error", message: String(error) };
    throw new Error(`${name}: ${message.slice(0, 1000)}`);
  } finally {
    port.close();
  }
}
