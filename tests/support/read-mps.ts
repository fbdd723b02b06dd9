import type { LinearProgram } from "../../src/core/dispatch/program.ts";
import { ProgramBuilder } from "../../src/core/dispatch/program-builder.ts";

/**
 * A program in the MPS form of the published instances: rows N, E, L and G, columns from 0 up and one
 * right-hand side. Throws on any other section, which those instances do not have.
 */
export function readMps(text: string): LinearProgram {
  const kinds = new Map<string, string>();
  const costs = new Map<string, number>();
  const entries: [row: string, column: string, value: number][] = [];
  const sides = new Map<string, number>();
  let section = "";
  for (const line of text.split("\n")) {
    const words = line.trim().split(/\s+/);
    if (line.trim() === "" || line.startsWith("*")) continue;
    if (!line.startsWith(" ")) {
      section = words[0]!;
      if (!["NAME", "ROWS", "COLUMNS", "RHS", "ENDATA"].includes(section))
        throw new Error(`MPS section ${section}`);
    } else if (section === "ROWS") kinds.set(words[1]!, words[0]!);
    else {
      const [name, ...pairs] = words;
      for (let i = 0; i + 1 < pairs.length; i += 2) {
        const [row, value] = [pairs[i]!, Number(pairs[i + 1])];
        if (section === "RHS") sides.set(row, value);
        else if (kinds.get(row) === "N") costs.set(name!, value);
        else {
          if (!costs.has(name!)) costs.set(name!, 0);
          entries.push([row, name!, value]);
        }
      }
    }
  }
  const builder = new ProgramBuilder();
  const columns = new Map(
    [...costs].map(([name, cost]) => [
      name,
      builder.column(builder.family(name), -1, cost, 0, Number.POSITIVE_INFINITY),
    ]),
  );
  const rows = new Map(
    [...kinds].flatMap(([name, kind]) => {
      if (kind === "N") return [];
      const side = sides.get(name) ?? 0;
      const lower = kind === "L" ? Number.NEGATIVE_INFINITY : side;
      const upper = kind === "G" ? Number.POSITIVE_INFINITY : side;
      return [[name, builder.row(builder.family(name), -1, lower, upper)] as const];
    }),
  );
  for (const [row, column, value] of entries) builder.entry(rows.get(row)!, columns.get(column)!, value);
  return builder.assemble("published");
}
