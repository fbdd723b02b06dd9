import { scaleLoad } from "../core/demand/scale-load.ts";
import { found, type Outcome, type Problem, refused } from "../core/problem.ts";
import { checkFutures } from "../core/study/checks/futures.ts";
import type { Future } from "../core/study/schema/study.ts";
import { weatherIn } from "../core/study/weather-in.ts";
import { resolveStudy } from "./resolve-study.ts";
import type { ResolvedStudy, StudyBundle } from "./types.ts";

/** A study with its possible years, all as hourly figures. */
export interface ResolvedFutures {
  readonly own: ResolvedStudy;
  /** The study as it is in each possible year. */
  readonly years: readonly { readonly future: Future; readonly resolved: ResolvedStudy }[];
  /**
   * The study's own year first, then every other weather year that its possible years name, at the study's own
   * prices and demand; probabilities together 1, the own year's 0 where none of them has it.
   */
  readonly weatherYears: readonly { readonly resolved: ResolvedStudy; readonly probability: number }[];
  /** Remarks on the study and on the weather of its years. */
  readonly findings: readonly Problem[];
}

/** Tells weather years apart; null for the study's own. */
function weatherOf({ weatherFile, weatherYear }: Future): string | null {
  return weatherFile === undefined && weatherYear === undefined
    ? null
    : JSON.stringify([weatherFile, weatherYear]);
}

/**
 * Reads a study and the weather of each of its possible years, and turns prices and loads by their
 * factors. All faults are told at once; a study without possible years is one, but for `mayBeNone`. Probabilities are scaled to sum to exactly 1.
 */
export function resolveFutures(
  bundle: StudyBundle,
  { mayBeNone = false }: { readonly mayBeNone?: boolean } = {},
): Outcome<ResolvedFutures> {
  const { study, files } = bundle;
  const { futures = [] } = study;
  const own = resolveStudy(bundle);
  const faults: Problem[] = [
    ...(own.ok ? [] : own.problems),
    ...(mayBeNone && futures.length === 0 ? [] : checkFutures(study)),
  ];
  const findings: Problem[] = own.ok ? [...own.findings] : [];

  const readings = new Map<string, Outcome<ResolvedStudy>>();
  futures.forEach((future, i) => {
    const { name, weatherFile } = future;
    const key = weatherOf(future);
    if (key === null || weatherFile?.trim() === "" || readings.has(key)) return;
    const outcome = resolveStudy({ study: { ...study, weather: weatherIn(study, future) }, files });
    readings.set(key, outcome);
    const path = `futures/${i}/${weatherFile === undefined ? "weatherYear" : "weatherFile"}`;
    if (outcome.ok) {
      const told = own.ok ? unlike(outcome.findings, own.findings) : [];
      findings.push(...told.map((finding) => ({ ...finding, message: `In "${name}": ${finding.message}` })));
    } else {
      const known = own.ok ? [] : own.problems;
      faults.push(
        ...unlike(outcome.problems, known).map((problem) =>
          problem.place.path === "weather/file" ? { ...problem, place: { ...problem.place, path } } : problem,
        ),
      );
    }
  });
  if (faults.length > 0 || !own.ok) return refused(faults);

  const all = futures.reduce((sum, { probability }) => sum + probability, 0);
  const years = futures.map((future) => {
    const key = weatherOf(future);
    const reading = key === null ? own : (readings.get(key) ?? own);
    const base = reading.ok ? reading.value : own.value;
    return {
      future: { ...future, probability: future.probability / all },
      resolved: turned(base, future),
    };
  });
  const shareOf = (key: string | null) =>
    futures.reduce((sum, future) => (weatherOf(future) === key ? sum + future.probability / all : sum), 0);
  const weatherYears = [
    { resolved: own.value, probability: futures.length === 0 ? 1 : shareOf(null) },
    ...[...readings].flatMap(([key, reading]) =>
      reading.ok ? [{ resolved: { ...reading.value, study }, probability: shareOf(key) }] : [],
    ),
  ];
  return found({ own: own.value, years, weatherYears, findings }, findings);
}

const unlike = (problems: readonly Problem[], known: readonly Problem[]) => {
  const told = new Set(known.map(({ code, message }) => `${code} ${message}`));
  return problems.filter(({ code, message }) => !told.has(`${code} ${message}`));
};

/** Prices and loads by the factors of a possible year. */
function turned(resolved: ResolvedStudy, future: Future): ResolvedStudy {
  const { fuelPriceFactor = 1, electricityPriceFactor = 1, demandFactor = 1 } = future;
  const times = (series: Float64Array, factor: number) =>
    factor === 1 ? series : series.map((value) => factor * value);
  return {
    ...resolved,
    loads: resolved.loads.map((load) => scaleLoad(load, demandFactor)),
    electricityPrice_per_kWh: times(resolved.electricityPrice_per_kWh, electricityPriceFactor),
    fuelPrices_per_kWh: resolved.fuelPrices_per_kWh.map((prices) => times(prices, fuelPriceFactor)),
  };
}
