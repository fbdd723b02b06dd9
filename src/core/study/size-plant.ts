import { unlimited } from "../dispatch/case.ts";
import type { Formulation } from "../dispatch/formulate.ts";
import type { LpSolver } from "../dispatch/program.ts";
import type { Plan } from "../dispatch/read-plan.ts";
import { typicalDays } from "../dispatch/typical-days.ts";
import { sum } from "../series.ts";
import { pipeRemarks } from "./pipe-remarks.ts";
import { planWithoutCollectors } from "./plan-without-collectors.ts";
import type { PlantModel } from "./plant-model.ts";
import { filmYears } from "./report/film-years.ts";
import { replaysOf } from "./report/replays.ts";
import { type Findings, resultOf } from "./report/result-of.ts";
import type { Result } from "./result.ts";
import { dispatchAt, nothingNew } from "./sizing/dispatch-at.ts";
import { settlePrices } from "./sizing/settle-prices.ts";
import { sizeByDays } from "./sizing/size-by-days.ts";
import { sizeByExact, sizeByYear } from "./sizing/size-by-year.ts";
import { type Solvers, type Watch, type YearSolver, yearSolving } from "./sizing/solvers.ts";
import { solveDays } from "./sizing/typical-days-answer.ts";
import { inWholeModules } from "./sizing/whole-modules.ts";

export interface SizingOptions {
  readonly method: "typical-days" | "full-year";
  readonly solvers: Solvers;
  /** Of the full year's programs; the engine where left out. */
  readonly yearSolver?: YearSolver;
  readonly version: string;
  readonly remarks: readonly string[];
  /** Controllers without foresight to be run: both with the full year, else the simple one, where left out. */
  readonly replays?: "none" | "simple" | "both";
  readonly onProgress?: (doing: string, share: number | null) => void;
  readonly shouldStop?: () => boolean;
}

export interface Sizing {
  readonly result: Result;
  readonly plan: Plan;
  /** The program whose objective `result.proof` gives. */
  readonly formulation: Formulation;
}

/** Clusters of typical days, besides the extreme one. */
export const dayClusters = 4;

/**
 * From a plant in numbers to sizes, dispatch and every reported figure.
 *
 * `typical-days` takes the sizes of a few days and dispatches the full year at them. `full-year` finds
 * sizes and dispatch of all hours in one program.
 *
 * @throws StoppedError where `shouldStop` said so
 */
export function sizePlant(ofStudy: PlantModel, options: SizingOptions): Sizing {
  const { solvers, yearSolver = "interior-point" } = options;
  const year = yearSolving(solvers, yearSolver);
  const watch: Watch = {
    progress: options.onProgress ?? (() => {}),
    watched: options.shouldStop === undefined ? {} : { shouldStop: options.shouldStop },
  };
  watch.progress("Today's plant, hour by hour", 0.02);
  const { problem: own } = ofStudy;
  const baseline = dispatchAt(unlimited(own), nothingNew(own), year.solver, watch.watched);

  const settled = settlePrices(
    ofStudy,
    (model, doing) => sizeOnce(model, options, year.solver, { ...watch, progress: withRun(watch, doing) }),
    ({ answer }) =>
      answer.proof.method === "full-year" ? answer.proof.objective : answer.typicalDays.dispatchObjective,
  );
  const { model } = settled;
  const { problem } = model;
  const { days, quick } = settled.answer;
  const { answer, wholeModules } = inWholeModules(
    model,
    settled.answer.answer,
    { days, daysSolver: solvers.exact, year: year.solver },
    watch,
  );

  watch.progress("New equipment without collectors, for comparison", 0.93);
  const withoutCollectors = planWithoutCollectors(problem, year.solver, watch.watched);

  const { plan, proof, duals, conflicts, typicalDays: figures, formulation } = answer;
  const controllers = options.replays ?? (options.method === "full-year" ? "both" : "simple");
  watch.progress("The film's years: the simple controller", 0.935);
  const film = controllers === "none" ? null : filmYears(model, plan.sizes);
  const replay =
    controllers === "none"
      ? null
      : replaysOf(model, plan, baseline, {
          planner: controllers === "both" ? options.solvers.exact : null,
          film,
          onProgress: (doing, share) => watch.progress(doing, 0.94 + 0.04 * share),
          ...(options.shouldStop === undefined ? {} : { shouldStop: options.shouldStop }),
        });

  watch.progress("Reporting", 0.98);
  const findings: Findings = {
    plan,
    baseline,
    withoutCollectors,
    duals,
    conflicts,
    proof,
    wholeModules,
    truePrices: settled.truePrices,
    replay,
    film,
    typicalDays: figures,
    remarks: [
      ...options.remarks,
      ...quick.remarks,
      ...answer.remarks,
      ...year.remarks,
      ...baselineRemarks(baseline),
      ...(conflicts.length > 0 ? [] : pipeRemarks(model, plan)),
    ],
    version: options.version,
  };
  return { result: resultOf(model, findings), plan, formulation };
}

/** Sizes of a plant whose costs are lines. */
function sizeOnce(model: PlantModel, options: SizingOptions, year: LpSolver, watch: Watch) {
  const { solvers, method, yearSolver = "interior-point" } = options;
  watch.progress("Typical days: finding sizes", 0.06);
  const days = typicalDays(model.problem, dayClusters);
  const quick = solveDays(days, solvers);
  const answer =
    method === "typical-days"
      ? sizeByDays(model, days, quick, solvers, year, watch)
      : yearSolver === "highs"
        ? sizeByExact(model, days, quick, solvers, watch)
        : sizeByYear(model, days, quick, year, watch);
  return { days, quick, answer };
}

/** Progress that says which of several runs it is of; how many there will be is not known. */
function withRun({ progress }: Watch, run: string): Watch["progress"] {
  return run === ""
    ? progress
    : (doing, share) => progress(`${run}. ${doing}`, share === null ? null : share * 0.9);
}

/** Where today's plant falls short, what it saves in fuel is no measure of the new one. */
function baselineRemarks({ hours }: Plan): string[] {
  const unmet_kWh = hours.networks.reduce((all, network) => all + sum(network.unmet_kW), 0);
  if (unmet_kWh < 1) return [];
  return [
    `Today's plant leaves ${Math.round(unmet_kWh).toLocaleString("en")} kWh of heat a year unmet, at no fuel cost; ` +
      "fuel cost avoided, pay-back, NPV and IRR compare with a works that goes without that heat. " +
      "Give today's boilers their power to compare with them.",
  ];
}
