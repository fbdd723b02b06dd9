import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { ChildMessage } from "./child/run-child.ts";

/**
 * Runs one task of child/run-child.ts in a process of its own, which starts cold and holds nothing else.
 *
 * @throws Error where the process ends without an answer
 */
export function inChild<T>(
  args: readonly string[],
  onProgress: (line: string) => void = () => {},
): Promise<T> {
  const beside = import.meta.url.endsWith(".ts") ? "./main.ts" : "./main.js";
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL(beside, import.meta.url)), ["--child", ...args]);
    let answer: T | undefined;
    child.on("message", (message: ChildMessage) => {
      if ("progress" in message) onProgress(message.progress);
      else answer = message.answer as T;
    });
    child.on("error", reject);
    child.on("exit", (code) => {
      if (answer !== undefined && code === 0) resolve(answer);
      else reject(new Error(`the measurement ${args.join(" ")} ended with code ${code}`));
    });
  });
}
