import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const main = fileURLToPath(new URL("../../src/cli/main.ts", import.meta.url));

/** Runs the command line as a process of its own, as a user would. */
export function runCli(...args: string[]): {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
} {
  const { status, stdout, stderr } = spawnSync(process.execPath, ["--import", "tsx", main, ...args], {
    encoding: "utf8",
    timeout: 300_000,
  });
  return { code: status, out: stdout, err: stderr };
}
