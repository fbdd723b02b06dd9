import { writeFileSync } from "node:fs";
import { cpus, loadavg, totalmem } from "node:os";
import { parseArgs } from "node:util";
import { exampleInstance } from "./example-problem.ts";
import { exampleTable } from "./example-rows.ts";
import { growthTable, runGrowth } from "./growth-rows.ts";
import { growthInstances, yearInstances } from "./instances/instances.ts";
import { raceTable, runRaces } from "./race-rows.ts";
import { replayTable, runReplays } from "./replay-rows.ts";
import { markdownTable, type Table } from "./table.ts";
import { writeInstances } from "./write-instances.ts";

const say = (line: string) => {
  process.stdout.write(`${line}\n`);
};

/**
 * Measures speed and memory on this machine. A whole run writes docs/benchmarks.md; `--quick` leaves out what
 * takes minutes, `--only NAME` measures one instance, `--mps DIR` writes instances instead, `--list` names them.
 */
export async function runBench(args: readonly string[]): Promise<void> {
  const { values } = parseArgs({
    args: [...args],
    options: {
      quick: { type: "boolean", default: false },
      only: { type: "string" },
      mps: { type: "string" },
      list: { type: "boolean", default: false },
    },
  });
  const { quick, only } = values;
  const load = loadavg()[0]!;
  const chosen = <T extends { readonly name: string }>(all: readonly T[]) =>
    only === undefined ? all : all.filter(({ name }) => name === only);
  const years = chosen([...yearInstances, exampleInstance]);
  const growth = chosen(growthInstances).filter(({ name }) => !quick || !name.endsWith("-25"));
  if (years.length + growth.length === 0) throw new Error(`no instance ${only}; --list names them`);
  if (values.list) {
    for (const { name, what } of [...years, ...growth]) say(`${name}: ${what}`);
    return;
  }
  if (values.mps !== undefined) {
    writeInstances([...years, ...growth], values.mps, say);
    return;
  }
  const tables: Table[] = [];
  if (years.length > 0) tables.push(raceTable(await runRaces(years, { quick, say })));
  if (growth.length > 0) tables.push(growthTable(await runGrowth(growth, say)));
  const replayed = years.filter(({ name }) => ["one", "three", exampleInstance.name].includes(name));
  if (replayed.length > 0) tables.push(replayTable(await runReplays(replayed, say)));
  if (only !== undefined) return;
  tables.push(await exampleTable({ quick, say }));
  if (!quick) writeFileSync(new URL("../../docs/benchmarks.md", import.meta.url), page(tables, load));
}

/** @param load of the machine before the run: how many others wanted a core */
function page(tables: readonly Table[], load: number): string {
  return [
    "# Benchmarks",
    "",
    "Written by `npm run bench`; ratios are of one run. Times depend on the machine: this one has",
    `${cpus().length} cores and ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.versions.node}, and a load of ${load.toFixed(1)} before the run.`,
    "`npm run bench -- --quick` leaves out what takes minutes and does not write this page; `--list` names the instances, `--only NAME` measures one, and",
    "`--mps DIR` writes them as MPS files. The instances are made up from seeds (src/bench/instances).",
    "",
    ...tables.map(markdownTable),
  ].join("\n");
}
