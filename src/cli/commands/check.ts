import { Command } from "commander";
import { resolveStudy } from "../../app/resolve-study.ts";
import { tell } from "../../core/problem.ts";
import { openStudyFile } from "../../store/open-study-file.ts";
import { accept } from "../exit-codes.ts";

export function checkCommand(): Command {
  return new Command("check")
    .description("read a study with all its files and tell every fault and remark")
    .argument("<study>", "study.json or summary.html")
    .action((path: string) => {
      const resolved = accept(resolveStudy(accept(openStudyFile(path))));
      for (const finding of resolved.findings) process.stdout.write(`- ${tell(finding)}\n`);
      const count = resolved.findings.length;
      process.stdout.write(`No faults; ${count === 1 ? "1 remark" : `${count} remarks`}.\n`);
    });
}
