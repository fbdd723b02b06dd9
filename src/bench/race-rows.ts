import type { Lap, Race } from "./child/race.ts";
import { inChild } from "./in-child.ts";
import type { BenchInstance } from "./instances/instances.ts";
import { seconds, small, type Table, wanted } from "./table.ts";

export interface RaceRow {
  readonly instance: BenchInstance;
  readonly race: Race;
}

/** The engine against HiGHS on each instance, each in a process of its own. */
export async function runRaces(
  instances: readonly BenchInstance[],
  { quick, say }: { readonly quick: boolean; readonly say: (line: string) => void },
): Promise<RaceRow[]> {
  const rows: RaceRow[] = [];
  for (const instance of instances) {
    const withHighs = instance.highs === "seconds" || (instance.highs === "minutes" && !quick);
    say(`${instance.name}: ${instance.what}`);
    const race = await inChild<Race>(["race", instance.name, ...(withHighs ? ["highs"] : [])], (line) => {
      say(`  ${line}`);
    });
    rows.push({ instance, race });
    say(`  ${cells({ instance, race }).slice(2).join(" | ")}`);
  }
  return rows;
}

export function raceTable(rows: readonly RaceRow[]): Table {
  return {
    title: "Full years: the engine against HiGHS",
    note:
      "The solver's own time in one process: the engine's first solve, its second and the median of all but the first; HiGHS (dual simplex, " +
      "devex pricing) the median of up to three, or one where it takes minutes after the engine. The ratio is of " +
      "HiGHS to the engine's second solve. Gap and residuals are recomputed from the engine's answer in the program's own units.",
    head: [
      "full year",
      "rows × columns",
      "iterations",
      "first",
      "second",
      "later",
      "HiGHS",
      "ratio",
      "wanted",
      "gap",
      "primal, dual residual",
      "objectives differ by",
    ],
    rows: rows.map(cells),
  };
}

function cells({ instance, race: { rows, columns, engine, highs } }: RaceRow): string[] {
  const ratio = highs === null ? null : highs.again_s / engine.second_s;
  return [
    instance.what,
    `${rows} × ${columns}`,
    String(engine.iterations),
    engine.status === "optimal"
      ? seconds(engine.first_s)
      : `${engine.status} after ${seconds(engine.first_s)}`,
    seconds(engine.second_s),
    `${seconds(engine.again_s)} (of ${engine.runs})`,
    highs === null ? "not run" : `${seconds(highs.again_s)} (of ${highs.runs})`,
    ratio === null ? "–" : ratio.toPrecision(3),
    wishes(instance, engine, ratio),
    small(engine.relativeGap),
    `${small(engine.primalResidual)}, ${small(engine.dualResidual)}`,
    highs === null ? "–" : small(difference(engine, highs)),
  ];
}

const difference = (a: Lap, b: Lap) => Math.abs(a.objective - b.objective) / (1 + Math.abs(b.objective));

function wishes({ leastRatio, mostSolve_s }: BenchInstance, engine: Lap, ratio: number | null): string {
  const wishes: string[] = [];
  const isSolved = engine.status === "optimal";
  if (leastRatio !== undefined && ratio !== null)
    wishes.push(wanted(`ratio ${leastRatio}`, isSolved && ratio >= leastRatio));
  if (mostSolve_s !== undefined)
    wishes.push(wanted(`under ${mostSolve_s} s`, isSolved && engine.second_s < mostSolve_s));
  return wishes.length === 0 ? "no figure" : wishes.join("; ");
}
