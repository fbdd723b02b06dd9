import type { Load } from "../study/schema/study.ts";

/** What the steam loads of a study do not count: what some of them does not give, and leaks. */
export function steamNotIncluded(loads: readonly Load[]): string[] {
  const steam = loads.filter((load) => load.kind === "steam");
  if (steam.length === 0) return [];
  const left = [
    ...(steam.every(({ blowDown }) => blowDown !== undefined) ? [] : ["blow-down"]),
    ...(steam.every(({ condensateFlash }) => condensateFlash !== undefined) ? [] : ["flash steam"]),
    "leaks",
    ...(steam.every(({ dryness, superheat_K }) => dryness !== undefined || superheat_K !== undefined)
      ? []
      : ["wetness"]),
  ];
  const words = left.length === 1 ? left[0]! : `${left.slice(0, -1).join(", ")} and ${left.at(-1)}`;
  return [`${words.charAt(0).toUpperCase()}${words.slice(1)} of steam, but for what the flow given holds.`];
}
