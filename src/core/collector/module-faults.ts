import type { Problem } from "../problem.ts";
import type { Collector } from "../study/schema/collector.ts";

/** What can be wrong with the size of a collector that comes in modules. */
export const moduleProblems = {
  COLLECTOR_MODULES:
    "The size of a collector that comes in modules must have room for a whole number of them.",
} as const;

/** Whole but for the digits that a study is written with. */
const nearlyWhole = 1e-6;

export function moduleFaults({ module_m2, size }: Collector, path: string): Problem[] {
  if (module_m2 === undefined) return [];
  const fault = (field: string, message: string): Problem[] => [
    { code: "COLLECTOR_MODULES", message, place: { path: `${path}/${field}` } },
  ];
  const said = (area: number) => `${Number(area.toPrecision(12))} m²`;
  const { choice, least = 0, most, fixed } = size;
  if (choice === "fixed" && fixed !== undefined) {
    const modules = fixed / module_m2;
    const down = Math.floor(modules + nearlyWhole);
    if (Math.abs(modules - Math.round(modules)) <= nearlyWhole * Math.max(1, modules)) return [];
    return fault(
      "size/fixed",
      `${said(fixed)} is ${modules.toFixed(2)} modules of ${said(module_m2)}; a whole number of modules is allowed, such as ${said(down * module_m2)} or ${said((down + 1) * module_m2)}.`,
    );
  }
  if (choice === "bounded" && most !== undefined && most >= least) {
    const fewest = Math.ceil(least / module_m2 - nearlyWhole);
    if (fewest * module_m2 <= most * (1 + nearlyWhole)) return [];
    return fault(
      "size/most",
      `Between ${said(least)} and ${said(most)} there is no whole number of modules of ${said(module_m2)}; at most ${said(fewest * module_m2)} or more is needed.`,
    );
  }
  return [];
}
