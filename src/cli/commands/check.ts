import { Command } from "commander";
import { resolveFutures } from "../../app/resolve-futures.ts";
import { resolveStudy } from "../../app/resolve-study.ts";
import { tell } from "../../core/problem.ts";
import { openStudyFile } from "../../store/open-study-file.ts";
import { accept } from "../exit-codes.ts";

export function checkCommand(): Command {
  return new Command("check")
    .description("read a study with all its files and tell every fault and remark")
    .argument("<study>", "study.json or summary.html")
    .action((path: string) => {
      const bundle = accept(openStudyFile(path));
      const { findings } =
        (bundle.study.futures ?? []).length > 0
          ? accept(resolveFutures(bundle))
          : accept(resolveStudy(bundle));
      for (const finding of findings) process.stdout.write(`- ${tell(finding)}\n`);
      const count = findings.length;
      process.stdout.write(`No faults; ${count === 1 ? "1 remark" : `${count} remarks`}.\n`);
    });
}
