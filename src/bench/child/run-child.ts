import { memory } from "./memory.ts";
import { race } from "./race.ts";
import { replays } from "./replays.ts";

/** One measurement in a process of its own: what was asked stands in the arguments, messages go to the parent. */
export type ChildMessage = { readonly progress: string } | { readonly answer: unknown };

const send = (message: ChildMessage) => {
  process.send?.(message);
};

/** @param args `race NAME`, `race NAME highs`, `memory NAME` or `replay NAME` */
export async function runChild(args: readonly string[]): Promise<void> {
  const [task, name = "", also] = args;
  if (task === "memory") send({ answer: await memory(name) });
  else if (task === "replay") send({ answer: await replays(name) });
  else if (task === "race") {
    const onProgress = (progress: string) => send({ progress });
    send({ answer: await race(name, { withHighs: also === "highs", onProgress }) });
  } else throw new Error(`no task ${task}`);
  process.disconnect();
}
