import { closeSync, mkdirSync, openSync, writeSync } from "node:fs";
import { join } from "node:path";
import { formulate } from "../core/dispatch/formulate.ts";
import { mpsChunks } from "../formats/mps.ts";
import type { BenchInstance } from "./instances/instances.ts";

/** Writes each instance as `NAME.mps`, for any other solver; a year is some ten megabytes. */
export function writeInstances(
  instances: readonly BenchInstance[],
  folder: string,
  say: (line: string) => void,
): void {
  mkdirSync(folder, { recursive: true });
  for (const { name, what, problem } of instances) {
    const path = join(folder, `${name}.mps`);
    const file = openSync(path, "w");
    try {
      for (const chunk of mpsChunks(formulate(problem()).program)) writeSync(file, chunk);
    } finally {
      closeSync(file);
    }
    say(`${path}: ${what}`);
  }
}
