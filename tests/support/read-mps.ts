import type { LinearProgram } from "../../src/core/dispatch/program.ts";
import { ProgramBuilder } from "../../src/core/dispatch/program-builder.ts";

/**
 * A program in the MPS form of the published instances: rows N, E, L and G, columns from 0 up
 * unless bounded (UP, LO, FX) and one right-hand side. Throws on what those instances do not have.
 */
export function readMps(text: string): LinearProgram {
  const kinds = new Map<string, string>();
  const costs = new Map<string, number>();
  const entries: [row: string, column: string, value: number][] = [];
  const sides = new Map<string, number>();
  const lowers = new Map<string, number>();
  const uppers = new Map<string, number>();
  let section = "";
  for (const line of text.split("\n")) {
    const words = line.trim().split(/\s+/);
    if (line.trim() === "" || line.startsWith("*")) continue;
    if (!line.startsWith(" ")) {
      section = words[0]!;
      if (!["NAME", "ROWS", "COLUMNS", "RHS", "BOUNDS", "ENDATA"].includes(section))
        throw new Error(`MPS section ${section}`);
    } else if (section === "ROWS") kinds.set(words[1]!, words[0]!);
    else if (section === "BOUNDS") {
      const [kind, , name, value] = words;
      if (!["UP", "LO", "FX"].includes(kind!)) throw new Error(`MPS bound ${kind}`);
      if (kind !== "UP") lowers.set(name!, Number(value));
      if (kind !== "LO") uppers.set(name!, Number(value));
    } else {
      // A right-hand side may have no name.
      const name = section === "RHS" && words.length % 2 === 0 ? "" : words.shift();
      const pairs = words;
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
    [...costs].map(([name, cost]) => {
      const [lower, upper] = [lowers.get(name) ?? 0, uppers.get(name) ?? Number.POSITIVE_INFINITY];
      return [name, builder.column(builder.family(name), -1, cost, lower, upper)] as const;
    }),
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
