import { Command } from "commander";
import { resolveFutures } from "../../app/resolve-futures.ts";
import { resolveStudy } from "../../app/resolve-study.ts";
import { tell } from "../../core/problem.ts";
import { pinchFigures } from "../../core/study/pinch-figures.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { pinchNetworksTable, pinchSentences } from "../../present/pinch-view.ts";
import { openStudyFile } from "../../store/open-study-file.ts";
import { accept } from "../exit-codes.ts";

/** What the study's process streams need at best; nothing without streams. */
function streamLines(study: Study): string[] {
  const figures = pinchFigures(study);
  if (figures === null) return [];
  const { caption, rows } = pinchNetworksTable(study, figures);
  return [
    ...pinchSentences(study, figures),
    `${caption}: ${rows.map(([name, , heat]) => `${name} ${heat}`).join(", ")}.`,
  ];
}

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
      for (const line of streamLines(bundle.study)) process.stdout.write(`${line}\n`);
      const count = findings.length;
      process.stdout.write(`No faults; ${count === 1 ? "1 remark" : `${count} remarks`}.\n`);
    });
}
