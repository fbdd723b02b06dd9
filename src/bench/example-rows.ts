import { collectorYear } from "../core/collector/collector-year.ts";
import { collectorLevel } from "../core/collector/network-levels.ts";
import { formulate } from "../core/dispatch/formulate.ts";
import { solveOnce } from "../core/dispatch/program.ts";
import { typicalDays } from "../core/dispatch/typical-days.ts";
import { replayCurve } from "../core/study/area-curve.ts";
import { type PlantModel, plantModel } from "../core/study/plant-model.ts";
import type { Result } from "../core/study/result.ts";
import { dayClusters, sizePlant } from "../core/study/size-plant.ts";
import { aim } from "../core/sun/mounts.ts";
import { sunYear, sunYearBySpa } from "../core/sun/sun-year.ts";
import { loadSolvers } from "../solver/solvers.ts";
import { collectorRows } from "./collector-rows.ts";
import { resolvedExample } from "./example-problem.ts";
import { medianTime_s, timed } from "./measure.ts";
import { studyPageTime_s } from "./study-page.ts";
import { milliseconds, seconds, type Table, wanted } from "./table.ts";

/** Times what a user of the worked example waits for; the page without its area curve where `quick`. */
export async function exampleTable({
  quick,
  say,
}: {
  readonly quick: boolean;
  readonly say: (line: string) => void;
}): Promise<Table> {
  const rows: [string, string, string][] = [];
  const note = (what: string, found: string, wish: string) => {
    rows.push([what, found, wish]);
    say(`${what}: ${found} (wanted: ${wish})`);
  };
  const resolved = resolvedExample();
  const model = plantModel(resolved);
  const solvers = await loadSolvers();

  const { site } = resolved.study;
  const mount = { type: "axis-north-south" } as const;
  const fast_s = await medianTime_s(41, () => aim(sunYear(site), mount, site.latitude_deg));
  note(
    "A year of sun position and incidence on one mount, fast",
    milliseconds(fast_s),
    wanted("under 8 ms", fast_s < 0.008),
  );
  const spa_s = await medianTime_s(9, () => aim(sunYearBySpa(site), mount, site.latitude_deg));
  note(
    "A year of sun position and incidence on one mount, by SPA",
    milliseconds(spa_s),
    wanted("under 150 ms", spa_s < 0.15),
  );

  for (const collector of resolved.study.collectors) {
    const sun = sunYear(resolved.study.site);
    const levels = resolved.study.networks.map(collectorLevel);
    const climate = { latitude_deg: resolved.study.site.latitude_deg, sun, weather: resolved.weather };
    const time_s = await medianTime_s(41, () => collectorYear(collector, climate, levels));
    note(
      `A year of ${collector.name}, ${levels.length} temperatures`,
      milliseconds(time_s),
      wanted("under 15 ms", time_s < 0.015),
    );
  }

  for (const row of await collectorRows()) note(...row);

  const daysProgram = formulate(typicalDays(model.problem, dayClusters).problem).program;
  const days_s = await medianTime_s(5, () => solveOnce(solvers.quick, daysProgram));
  note(
    `Typical days by ${solvers.quick.name}: ${daysProgram.rows} rows, ${daysProgram.columns} columns`,
    seconds(days_s),
    wanted("under 1.5 s", days_s < 1.5),
  );
  note(
    "Choosing the days",
    milliseconds(await medianTime_s(5, () => typicalDays(model.problem, dayClusters))),
    "no figure",
  );
  const page_s = await studyPageTime_s(resolved, solvers, !quick);
  note(
    "A study page with its charts, from stored results",
    milliseconds(page_s),
    wanted("under 100 ms", page_s < 0.1),
  );
  const sizing = timed(() =>
    sizePlant(model, { method: "full-year", solvers, replays: "simple", version: "bench", remarks: [] }),
  );
  const { result } = sizing.value;
  note(
    "Full-year sizing: from the plant in numbers to every figure of the first answer",
    `${seconds(sizing.time_s)}, of it ${seconds(result.proof.solve_s)} the solver's (${result.proof.solver}) for the sizes`,
    "no figure",
  );
  note(...curveRow(model, result));
  return {
    title: "The worked example",
    note: "Medians of several runs; the sizing ran once.",
    head: ["what", "found", "wanted"],
    rows,
  };
}

/** The lines of the area curve by replay, in one thread and without drawing. */
function curveRow(model: PlantModel, result: Result): [string, string, string] {
  const curve = timed(() => replayCurve(model, result));
  const points = curve.value.lines.reduce((all, line) => all + line.points.length, 0);
  return [
    `Area curve by replay: ${points} points on ${curve.value.lines.length} lines`,
    seconds(curve.time_s),
    wanted("60 points under 1 s", points >= 60 && curve.time_s < 1),
  ];
}
