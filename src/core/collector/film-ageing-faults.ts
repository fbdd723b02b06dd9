import type { Problem } from "../problem.ts";
import type { Collector } from "../study/schema/collector.ts";

/** What can be wrong with how a film ages. */
export const filmAgeingProblems = {
  COLLECTOR_FILM_AGEING:
    "Ageing of a film needs a film part, optics that know the film, and a life that fits its month.",
} as const;

/** @param life_years of the film part; undefined where none is named */
export function filmAgeingFaults(
  { filmAgeing, filmPart, optics }: Collector,
  life_years: number | undefined,
  path: string,
): Problem[] {
  if (filmAgeing === undefined) return [];
  const problems: Problem[] = [];
  const fault = (field: string, message: string) =>
    problems.push({ code: "COLLECTOR_FILM_AGEING", message, place: { path: `${path}/${field}` } });
  if (filmPart === undefined)
    fault(
      "filmPart",
      "The film ages and no part is named as the film; name the part whose life is the film's.",
    );
  const { transmittanceLost_per_year, reflectanceLost_per_year, changeMonth } = filmAgeing;
  for (const [field, what, lost] of [
    ["transmittanceLost_per_year", "transmittance", transmittanceLost_per_year],
    ["reflectanceLost_per_year", "reflectance", reflectanceLost_per_year],
  ] as const) {
    if (lost === undefined) continue;
    if (optics.by === "measured")
      fault(
        `filmAgeing/${field}`,
        `The optics are measured and hold no ${what} of a film; give the optical efficiency lost per year of film age instead.`,
      );
    else if (what === "transmittance" && optics.filmPasses === 0)
      fault(
        `filmAgeing/${field}`,
        "The light passes no cover film, so its transmittance cannot age; 1 or 2 passes are allowed beside it.",
      );
  }
  if (changeMonth !== undefined && life_years !== undefined && life_years < 1)
    fault(
      "filmAgeing/changeMonth",
      `A film with a life of ${life_years} years is changed more than once a year, so it has no month of change; a life of at least 1 year is allowed.`,
    );
  return problems;
}
