import { Command } from "commander";
import { exampleBundle } from "../../app/example.ts";
import { exampleDefinition } from "../../store/example-files.ts";
import { writeFiles } from "../write-files.ts";

export function exampleCommand(): Command {
  return new Command("example")
    .description("write the worked example as study.json with its files")
    .argument("<dir>", "folder to write into")
    .action(async (dir: string) => {
      const { study, files } = exampleBundle(exampleDefinition());
      await writeFiles(dir, {
        "study.json": `${JSON.stringify(study, null, 2)}\n`,
        ...Object.fromEntries(files),
      });
      process.stdout.write(`Wrote study.json, ${[...files.keys()].join(" and ")} to ${dir}\n`);
    });
}
