import type { DispatchCase } from "../../src/core/dispatch/case.ts";
import type { LinearProgram } from "../../src/core/dispatch/program.ts";

/** What keeps a program from being a staircase of blocks with one column and row of a kind each; empty where nothing does. */
export function staircaseFaults(problem: DispatchCase, program: LinearProgram): string[] {
  const { columnBlock, columnKind, rowBlock, rowKind } = program.structure!;
  const faults: string[] = [];
  const before = (t: number) => {
    const cycle = problem.cycles.find(({ start, length }) => t >= start && t < start + length)!;
    return t === cycle.start ? cycle.start + cycle.length - 1 : t - 1;
  };
  const seen = new Set<string>();
  const once = (key: string) => {
    if (seen.has(key)) faults.push(`twice: ${key}`);
    seen.add(key);
  };
  for (let j = 0; j < program.columns; j += 1) {
    if (columnBlock[j]! >= 0) once(`column kind ${columnKind[j]} in block ${columnBlock[j]}`);
    for (let e = program.starts[j]!; e < program.starts[j + 1]!; e += 1) {
      const row = program.indices[e]!;
      const [own, other] = [rowBlock[row]!, columnBlock[j]!];
      if (own < 0 || other < 0 || own === other || other === before(own)) continue;
      faults.push(`${program.rowName(row)} touches ${program.columnName(j)}`);
    }
  }
  for (let i = 0; i < program.rows; i += 1)
    if (rowBlock[i]! >= 0) once(`row kind ${rowKind[i]} in block ${rowBlock[i]}`);
  return faults;
}
