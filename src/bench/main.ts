import { writeFileSync } from "node:fs";
import { cpus, totalmem } from "node:os";
import { exampleBundle } from "../app/example.ts";
import { resolveStudy } from "../app/resolve-study.ts";
import type { ResolvedStudy } from "../app/types.ts";
import { collectorYear } from "../core/collector/collector-year.ts";
import { collectorLevel } from "../core/collector/network-levels.ts";
import { formulate } from "../core/dispatch/formulate.ts";
import { solveOnce } from "../core/dispatch/program.ts";
import { typicalDays } from "../core/dispatch/typical-days.ts";
import { plantModel } from "../core/study/plant-model.ts";
import { dayClusters, sizePlant } from "../core/study/size-plant.ts";
import { sunYear } from "../core/sun/sun-year.ts";
import { loadSolvers } from "../solver/solvers.ts";
import { exampleDefinition } from "../store/example-files.ts";
import { medianTime_s, timed } from "./measure.ts";
import { studyPageTime_s } from "./study-page.ts";

/**
 * Times the worked example on this machine and writes docs/benchmarks.md. `--quick` leaves out the
 * full year, which takes minutes.
 */
interface Row {
  readonly what: string;
  readonly found: string;
  readonly wanted: string;
}

const quick = process.argv.includes("--quick");
const rows: Row[] = [];
const note = (what: string, found: string, wanted: string) => {
  rows.push({ what, found, wanted });
  process.stdout.write(`${what}: ${found} (wanted: ${wanted})\n`);
};
const ms = (time_s: number) => `${(time_s * 1000).toPrecision(3)} ms`;
const s = (time_s: number) => `${time_s.toPrecision(3)} s`;

const resolved = resolve();
const model = plantModel(resolved);
const solvers = await loadSolvers();

for (const collector of resolved.study.collectors) {
  const sun = sunYear(resolved.study.site);
  const levels = resolved.study.networks.map(collectorLevel);
  const climate = { latitude_deg: resolved.study.site.latitude_deg, sun, weather: resolved.weather };
  const time_s = await medianTime_s(41, () => collectorYear(collector, climate, levels));
  note(`A year of ${collector.name}, ${levels.length} temperatures`, ms(time_s), "under 15 ms");
}

const days = typicalDays(model.problem, dayClusters);
const daysProgram = formulate(days.problem).program;
const daysTime_s = await medianTime_s(5, () => solveOnce(solvers.quick, daysProgram));
note(
  `Typical days by ${solvers.quick.name}: ${daysProgram.rows} rows, ${daysProgram.columns} columns`,
  s(daysTime_s),
  "under 1.5 s",
);
note(
  "Choosing the days",
  ms(await medianTime_s(5, () => typicalDays(model.problem, dayClusters))),
  "no figure",
);
note(
  "A study page with its charts, from stored results",
  ms(await studyPageTime_s(resolved, solvers, !quick)),
  "under 100 ms",
);

if (!quick) {
  const sizing = timed(() =>
    sizePlant(model, { method: "full-year", solvers, version: "bench", remarks: [] }),
  );
  const { program } = sizing.value.formulation;
  const alone = timed(() => solveOnce(solvers.exact, program));
  note(
    `Full-year sizing, everything: ${program.rows} rows, ${program.columns} columns, ${program.values.length} non-zeros`,
    `${s(sizing.time_s)}; ${solvers.exact.name} alone, cold, on the same program ${s(alone.time_s)}; ` +
      `ratio ${(sizing.time_s / alone.time_s).toPrecision(3)}`,
    "ratio at most 1.2",
  );
  const difference =
    Math.abs(sizing.value.result.proof.objective - alone.value.objective) / alone.value.objective;
  note("The two objectives differ by", difference.toExponential(1), "rounding");
  writeFileSync(new URL("../../docs/benchmarks.md", import.meta.url), page());
}

function resolve(): ResolvedStudy {
  const outcome = resolveStudy(exampleBundle(exampleDefinition()));
  if (!outcome.ok) throw new Error("the worked example does not resolve");
  return outcome.value;
}

function page(): string {
  const cpu = cpus();
  const lines = rows.map(({ what, found, wanted }) => `| ${what} | ${found} | ${wanted} |`);
  return [
    "# Benchmarks",
    "",
    "Written by `npm run bench` on the worked example; ratios are of one run. Times depend on the machine:",
    `this one has ${cpu.length} cores and ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.versions.node}.`,
    "`npm run bench -- --quick` leaves out the full year and does not write this page.",
    "",
    "| what | found | wanted |",
    "| --- | --- | --- |",
    ...lines,
    "",
  ].join("\n");
}
