import type { Problem } from "../../core/problem.ts";
import { sum } from "../../core/series.ts";
import type { DiffuseModel } from "../../core/weather.ts";
import { weatherProblem } from "./weather-problems.ts";

const modelNames: Readonly<Record<DiffuseModel, string>> = {
  erbs: "Erbs (the hour's clearness)",
  persistence: "Ridley, Boland and Lauret (the clearness of the hour, its neighbours and its day)",
};

export interface SplitChoices {
  /** What estimated the beam; undefined where the file itself holds beam or diffuse. */
  readonly beamEstimatedBy: DiffuseModel | undefined;
  /** What the study asks for. */
  readonly diffuseBy: DiffuseModel | undefined;
  /** The estimate was made before this file was written. */
  readonly isBefore: boolean;
}

/** What a beam that was estimated from global light is worth. */
export function splitFindings(file: string, dni_W_m2: Float64Array, by: SplitChoices): Problem[] {
  if (by.beamEstimatedBy === undefined) {
    if (by.diffuseBy === undefined) return [];
    return [
      weatherProblem(
        file,
        "WEATHER_SPLIT_NOT_NEEDED",
        "The study says how to split global radiation, and the file holds beam or diffuse itself, which was taken.",
      ),
    ];
  }
  const year_kWh_m2 = Math.round(sum(dni_W_m2) / 1000);
  const total = Number.isFinite(year_kWh_m2) ? `, ${year_kWh_m2} kWh/m² in the year,` : "";
  return [
    weatherProblem(
      file,
      by.isBefore ? "WEATHER_SPLIT_BEFORE" : "WEATHER_SPLIT",
      `The file holds global radiation only; direct normal radiation${total} was estimated from it by ${modelNames[by.beamEstimatedBy]}. ` +
        "On the typical years it was held against the year's sum was up to a quarter off and single hours by 100 W/m² and more; measured beam is needed before an offer of concentrating collectors.",
    ),
  ];
}
