import type { Memory } from "./child/memory.ts";
import { inChild } from "./in-child.ts";
import type { BenchInstance } from "./instances/instances.ts";
import { seconds, type Table, wanted } from "./table.ts";

export interface GrowthRow {
  readonly instance: BenchInstance;
  readonly memory: Memory;
}

/** Time and memory of one solve, each in a process of its own. */
export async function runGrowth(
  instances: readonly BenchInstance[],
  say: (line: string) => void,
): Promise<GrowthRow[]> {
  const rows: GrowthRow[] = [];
  for (const instance of instances) {
    say(`${instance.name}: ${instance.what}`);
    const row = { instance, memory: await inChild<Memory>(["memory", instance.name]) };
    rows.push(row);
    say(`  ${cells(row).slice(1).join(" | ")}`);
  }
  return rows;
}

export function growthTable(rows: readonly GrowthRow[]): Table {
  return {
    title: "Growth with the hours",
    note:
      "One solve in a process that does nothing else. Time for an iteration and a year shows whether the work grows in " +
      "proportion to the hours. Memory is the largest that the process ever held: Node itself, the making of the program, the solve.",
    head: [
      "in one program",
      "iterations",
      "solve",
      "an iteration and year",
      "memory with the program",
      "memory in all",
      "wanted",
    ],
    rows: rows.map(cells),
  };
}

function cells({ instance, memory }: GrowthRow): string[] {
  const { status, iterations, solve_s, afterProgram_MB, afterSolve_MB, years } = memory;
  const most = instance.mostMemory_MB;
  return [
    instance.what,
    String(iterations),
    status === "optimal" ? seconds(solve_s) : `${status} after ${seconds(solve_s)}`,
    `${((1000 * solve_s) / iterations / years).toPrecision(3)} ms`,
    `${Math.round(afterProgram_MB)} MB`,
    `${Math.round(afterSolve_MB)} MB`,
    most === undefined
      ? "no figure"
      : wanted(`under ${most} MB`, status === "optimal" && afterSolve_MB < most),
  ];
}
