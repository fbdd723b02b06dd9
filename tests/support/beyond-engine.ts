/**
 * Seeds of random plants on which the interior point ends as `unknown`, so that HiGHS must stand in; never with a
 * wrong answer. Limits that conflict are stretched there at a price that dwarfs every other cost.
 */
export const beyondEngine: ReadonlySet<number> = new Set([184, 185]);
