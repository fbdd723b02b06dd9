import type { ReplayLap, Replays } from "./child/replays.ts";
import { inChild } from "./in-child.ts";
import type { BenchInstance } from "./instances/instances.ts";
import { milliseconds, type Table, wanted } from "./table.ts";

export interface ReplayRow {
  readonly instance: BenchInstance;
  readonly replays: Replays;
}

/** Controllers without full foresight on the plant that the program sizes, each instance in a process of its own. */
export async function runReplays(
  instances: readonly BenchInstance[],
  say: (line: string) => void,
): Promise<ReplayRow[]> {
  const rows: ReplayRow[] = [];
  for (const instance of instances) {
    say(`replay of ${instance.name}: ${instance.what}`);
    const row = { instance, replays: await inChild<Replays>(["replay", instance.name]) };
    rows.push(row);
    for (const line of cells(row)) say(`  ${line.slice(1).join(" | ")}`);
  }
  return rows;
}

export function replayTable(rows: readonly ReplayRow[]): Table {
  return {
    title: "Replays without foresight",
    note:
      "The same plant and year, at the sizes of the program, run by controllers that do not see the year. Cost is what the " +
      "program would pay for their hours, sizes included, over its own cost. A controller that costs more than one that " +
      "plans less is named as losing to it.",
    head: [
      "plant",
      "controller",
      "make ready",
      "run the year",
      "wanted",
      "cost above perfect foresight",
      "solar fraction",
      "loses to",
    ],
    rows: rows.flatMap(cells),
  };
}

function cells({ instance, replays }: ReplayRow): string[][] {
  return replays.laps.map((lap, i) => [
    instance.what,
    lap.controller,
    milliseconds(lap.prepare_s),
    milliseconds(lap.run_s),
    i === 0 ? wanted("a few milliseconds (10)", lap.run_s < 0.01) : "no figure",
    `${(100 * (lap.cost / replays.cost - 1)).toFixed(2)} %`,
    lap.solarFraction.toFixed(4),
    losesTo(lap, replays.laps.slice(0, i)),
  ]);
}

/** Controllers before it in the table plan less. */
function losesTo(lap: ReplayLap, simpler: readonly ReplayLap[]): string {
  const cheaper = simpler.filter(({ cost }) => cost < lap.cost).map(({ controller }) => controller);
  return cheaper.length === 0 ? "–" : cheaper.join(", ");
}
