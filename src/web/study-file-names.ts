import type { Study } from "../core/study/schema/study.ts";

/** Every file that a study names, each once. */
export function fileNamesOf(study: Study): string[] {
  const names = new Set<string>();
  if (study.weather.file !== "") names.add(study.weather.file);
  if (study.electricity.priceFile !== undefined) names.add(study.electricity.priceFile);
  for (const load of study.loads) {
    for (const value of Object.values(load) as unknown[]) {
      if (typeof value !== "object" || value === null || !("from" in value) || value.from !== "file") continue;
      if ("file" in value && typeof value.file === "string") names.add(value.file);
    }
  }
  return [...names];
}
