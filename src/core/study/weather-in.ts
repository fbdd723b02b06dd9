import type { Future, Study } from "./schema/study.ts";

/**
 * The weather of a possible year: another file of the same site, whose format shows by itself, or another year of
 * the study's own. What the user accepts holds for it too.
 */
export function weatherIn({ weather }: Study, { weatherFile, weatherYear }: Future): Study["weather"] {
  const { format, year: _, ...said } = weather;
  const own = weatherFile === undefined && format !== undefined ? { format } : {};
  return {
    ...said,
    ...own,
    file: weatherFile ?? weather.file,
    ...(weatherYear === undefined ? {} : { year: weatherYear }),
  };
}
