import { Command, Option } from "commander";
import { drawCurve } from "../../app/draw-curve.ts";
import { resolveStudy } from "../../app/resolve-study.ts";
import { sizeStudy } from "../../app/size-study.ts";
import type { Method, YearSolver } from "../../app/types.ts";
import { curveCsv } from "../../formats/curve-csv.ts";
import { loadSolvers } from "../../solver/solvers.ts";
import { openStudyFile } from "../../store/open-study-file.ts";
import { accept } from "../exit-codes.ts";
import { showProgress } from "../progress.ts";
import { yearSolverOption } from "../solver-option.ts";
import { writeFiles } from "../write-files.ts";

interface CurveOptions {
  readonly out: string;
  readonly method: Method;
  readonly solver: YearSolver;
}

export function curveCommand(): Command {
  return new Command("curve")
    .description("find the sizes, then write the area curve around them as curve.json and curve.csv")
    .argument("<study>", "study.json or summary.html")
    .requiredOption("--out <dir>", "folder to write into")
    .addOption(
      new Option("--method <method>", "how the sizes of the optimum are found")
        .choices(["typical-days", "full-year"])
        .default("full-year"),
    )
    .addOption(yearSolverOption())
    .action(async (path: string, options: CurveOptions) => {
      const resolved = accept(resolveStudy(accept(openStudyFile(path))));
      const progress = showProgress();
      const solvers = await loadSolvers();
      const onProgress = progress.report;
      const { result } = sizeStudy(resolved, {
        method: options.method,
        yearSolver: options.solver,
        replays: "none",
        solvers,
        onProgress,
      });
      const curve = drawCurve(resolved, { result, solvers, yearSolver: options.solver, onProgress });
      progress.end();
      await writeFiles(options.out, {
        "curve.json": `${JSON.stringify(curve, null, 2)}\n`,
        "curve.csv": curveCsv(curve),
      });
      process.stdout.write(`Wrote curve.json and curve.csv to ${options.out}\n`);
    });
}
