import { Command, Option } from "commander";
import { renderSummary } from "../../app/render-summary.ts";
import { resolveStudy } from "../../app/resolve-study.ts";
import { sizeStudy } from "../../app/size-study.ts";
import type { Method, YearSolver } from "../../app/types.ts";
import { hoursCsv } from "../../formats/hours-csv.ts";
import { mpsChunks } from "../../formats/mps.ts";
import { loadSolvers } from "../../solver/solvers.ts";
import { openStudyFile } from "../../store/open-study-file.ts";
import { accept, InputFault } from "../exit-codes.ts";
import { showProgress } from "../progress.ts";
import { yearSolverOption } from "../solver-option.ts";
import { today } from "../today.ts";
import { writeChunks, writeFiles } from "../write-files.ts";

interface SizeOptions {
  readonly out: string;
  readonly method: Method;
  readonly solver: YearSolver;
  readonly mps?: string;
}

export function sizeCommand(): Command {
  return new Command("size")
    .description("find the sizes and write result.json, hours.csv and summary.html")
    .argument("<study>", "study.json or summary.html")
    .requiredOption("--out <dir>", "folder to write into")
    .addOption(
      new Option("--method <method>", "how the sizes are found")
        .choices(["typical-days", "full-year"])
        .default("full-year"),
    )
    .addOption(yearSolverOption())
    .option("--mps <file>", "also write the linear program in free MPS")
    .action(async (path: string, options: SizeOptions) => {
      const bundle = accept(openStudyFile(path));
      const resolved = accept(resolveStudy(bundle));
      const progress = showProgress();
      const solvers = await loadSolvers();
      const { sizing, ...sized } = sizeStudy(resolved, {
        method: options.method,
        yearSolver: options.solver,
        solvers,
        onProgress: progress.report,
      });
      progress.end();
      if (options.mps !== undefined) writeChunks(options.mps, mpsChunks(sizing.formulation.program));
      const document = {
        study: bundle.study,
        resolved,
        sized,
        stale: false,
        curve: null,
        bundle,
        today: today(),
      };
      await writeFiles(options.out, {
        "result.json": `${JSON.stringify(sized.result, null, 2)}\n`,
        "hours.csv": hoursCsv(sized.hours, resolved.calendar),
        "summary.html": renderSummary(document),
      });
      const { conflicts } = sized.result;
      if (conflicts.length > 0) {
        throw new InputFault([
          "The limits of the study conflict; the files hold the answer that comes nearest:",
          ...conflicts.map(({ sentence }) => `- ${sentence}`),
        ]);
      }
      process.stdout.write(`Wrote result.json, hours.csv and summary.html to ${options.out}\n`);
    });
}
