import { readFile } from "node:fs/promises";
import { Command } from "commander";
import { resolveFutures } from "../../app/resolve-futures.ts";
import { sureStudy } from "../../app/sure-study.ts";
import type { Result } from "../../core/study/result.ts";
import { surenessLines } from "../../present/sureness-lines.ts";
import { loadSolvers } from "../../solver/solvers.ts";
import { openStudyFile } from "../../store/open-study-file.ts";
import { accept, InputFault } from "../exit-codes.ts";
import { showProgress } from "../progress.ts";
import { writeFiles } from "../write-files.ts";

interface SureOptions {
  readonly result: string;
  readonly out: string;
  readonly resize?: true;
}

export function sureCommand(): Command {
  return new Command("sure")
    .description("vary prices, sun and lives of a sized study and write sureness.json")
    .argument("<study>", "study.json or summary.html")
    .requiredOption("--result <file>", "result.json of the same study")
    .requiredOption("--out <dir>", "folder to write into")
    .option("--resize", "also find the sizes anew at both ends of every range, by typical days")
    .action(async (path: string, options: SureOptions) => {
      const futures = accept(resolveFutures(accept(openStudyFile(path)), { mayBeNone: true }));
      const result = await readResult(options.result);
      const progress = showProgress();
      const answer = sureStudy(futures, {
        result,
        onProgress: progress.report,
        ...(options.resize === true ? { resize: await loadSolvers() } : {}),
      });
      progress.end();
      await writeFiles(options.out, { "sureness.json": `${JSON.stringify(answer, null, 2)}\n` });
      process.stdout.write(
        `${surenessLines(futures.own.study, answer).join("\n")}\nWrote sureness.json to ${options.out}\n`,
      );
    });
}

async function readResult(path: string): Promise<Result> {
  const said = `${path} is no result of a sizing; give the result.json that "noonkeep size" wrote.`;
  const text = await readFile(path, "utf8").catch(() => {
    throw new InputFault([said]);
  });
  try {
    const result = JSON.parse(text) as Result;
    if (Array.isArray(result.sizes?.collectors) && result.baseline !== undefined) return result;
  } catch {
    // Told below.
  }
  throw new InputFault([said]);
}
