import { Command } from "commander";
import { resolveFutures } from "../../app/resolve-futures.ts";
import { robustStudy } from "../../app/robust-study.ts";
import type { YearSolver } from "../../core/study/sizing/solvers.ts";
import { mpsChunks } from "../../formats/mps.ts";
import { loadSolvers } from "../../solver/solvers.ts";
import { openStudyFile } from "../../store/open-study-file.ts";
import { accept, InputFault } from "../exit-codes.ts";
import { showProgress } from "../progress.ts";
import { yearSolverOption } from "../solver-option.ts";
import { writeChunks, writeFiles } from "../write-files.ts";

interface RobustOptions {
  readonly out: string;
  readonly solver: YearSolver;
  readonly mps?: string;
}

export function robustCommand(): Command {
  return new Command("robust")
    .description("find one set of sizes for all possible years of a study and write robust.json")
    .argument("<study>", "study.json or summary.html")
    .requiredOption("--out <dir>", "folder to write into")
    .addOption(yearSolverOption())
    .option("--mps <file>", "also write the linear program of all years in free MPS")
    .action(async (path: string, options: RobustOptions) => {
      const futures = accept(resolveFutures(accept(openStudyFile(path))));
      const progress = showProgress();
      const { answer, formulation } = robustStudy(futures, {
        solvers: await loadSolvers(),
        yearSolver: options.solver,
        onProgress: progress.report,
      });
      progress.end();
      if (options.mps !== undefined) writeChunks(options.mps, mpsChunks(formulation.program));
      await writeFiles(options.out, { "robust.json": `${JSON.stringify(answer, null, 2)}\n` });
      if (answer.conflicts.length > 0) {
        throw new InputFault([
          "What is asked cannot be kept in every year; the file holds the answer that comes nearest:",
          ...answer.conflicts.map((sentence) => `- ${sentence}`),
        ]);
      }
      process.stdout.write(`${answer.sentences.join("\n")}\nWrote robust.json to ${options.out}\n`);
    });
}
