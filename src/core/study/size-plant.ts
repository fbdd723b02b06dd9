import { atSizes, type DispatchCase, type NewSizes, unlimited } from "../dispatch/case.ts";
import { cleanAnswer } from "../dispatch/clean-answer.ts";
import { type Formulation, formulate } from "../dispatch/formulate.ts";
import {
  demandOptimal,
  type LpAnswer,
  type LpSolver,
  type SolveOptions,
  StoppedError,
  solveOnce,
} from "../dispatch/program.ts";
import { type Plan, readPlan, readSizes } from "../dispatch/read-plan.ts";
import { freeSizes, holdSizes } from "../dispatch/size-bounds.ts";
import { type TypicalDays, typicalDays } from "../dispatch/typical-days.ts";
import { scaleOf, verify } from "../dispatch/verify.ts";
import { sum } from "../series.ts";
import { limitConflicts } from "./explain-conflicts.ts";
import { unmetConflicts } from "./explain-unmet.ts";
import { planWithoutCollectors } from "./plan-without-collectors.ts";
import type { PlantModel } from "./plant-model.ts";
import { proofOf } from "./proof-of.ts";
import { replaysOf } from "./report/replays.ts";
import { type Findings, resultOf } from "./report/result-of.ts";
import { sizesOf } from "./report/sizes.ts";
import type { Conflict, Proof, Result, TypicalDaysFigures } from "./result.ts";

/** Solvers that a sizing may use. */
export interface Solvers {
  /** For the few hundred rows of typical days. */
  readonly quick: LpSolver;
  /** For full years, and where the quick one fails. */
  readonly exact: LpSolver;
  /** Finds sizes to start from, where there is one; the exact solver then confirms them. */
  readonly scout?: LpSolver;
}

export interface SizingOptions {
  readonly method: "typical-days" | "full-year";
  readonly solvers: Solvers;
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
 * `typical-days` takes the sizes of a few days and dispatches the full year at them. `full-year`
 * starts the exact solver from the dispatch at those sizes and then frees the sizes.
 *
 * @throws StoppedError where `shouldStop` said so
 */
export function sizePlant(model: PlantModel, options: SizingOptions): Sizing {
  const { problem } = model;
  const progress = options.onProgress ?? (() => {});
  const watched = shouldStopOnly(options);

  progress("Today's plant, hour by hour", 0.02);
  const baseline = dispatchAt(unlimited(problem), nothingNew(problem), options.solvers.exact, watched);

  progress("Typical days: finding sizes", 0.06);
  const days = typicalDays(problem, dayClusters);
  const quick = solveDays(days, options);

  progress("Full year: dispatch at the typical days' sizes", 0.12);
  const answer =
    options.method === "typical-days"
      ? sizeByDays(model, days, quick, options, watched)
      : sizeByYear(model, days, quick, options, watched);

  progress("New equipment without collectors, for comparison", 0.93);
  const withoutCollectors = planWithoutCollectors(problem, options.solvers.exact, watched);

  const { plan, proof, duals, conflicts, typicalDays: figures, formulation } = answer;
  const controllers = options.replays ?? (options.method === "full-year" ? "both" : "simple");
  const replay =
    controllers === "none"
      ? null
      : replaysOf(model, plan, baseline, {
          planner: controllers === "both" ? options.solvers.exact : null,
          onProgress: (doing, share) => progress(doing, 0.94 + 0.04 * share),
          ...(options.shouldStop === undefined ? {} : { shouldStop: options.shouldStop }),
        });

  progress("Reporting", 0.98);
  const findings: Findings = {
    plan,
    baseline,
    withoutCollectors,
    duals,
    conflicts,
    proof,
    replay,
    typicalDays: figures,
    remarks: [...options.remarks, ...quick.remarks, ...answer.remarks, ...baselineRemarks(baseline)],
    version: options.version,
  };
  return { result: resultOf(model, findings), plan, formulation };
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

function shouldStopOnly({ shouldStop }: SizingOptions): SolveOptions {
  return shouldStop === undefined ? {} : { shouldStop };
}

/** Sizes of today's plant: nothing new. */
export function nothingNew(problem: DispatchCase): NewSizes {
  return {
    fields_m2: new Float64Array(problem.fields.length),
    stores_kWh: new Float64Array(problem.stores.length),
    chargers_kW: new Float64Array(problem.stores.length),
    stepDowns_kW: new Float64Array(problem.stepDowns.length),
    chillers_kW: new Float64Array(problem.chillers.length),
    backups_kW: new Float64Array(problem.backups.length),
  };
}

/** Every program here has an answer, since what cannot be met has a price. */
function solved(solver: LpSolver, formulation: Formulation, options: SolveOptions): LpAnswer {
  return demandOptimal(solveOnce(solver, formulation.program, options));
}

/** The full-year dispatch of a plant of given sizes. */
export function dispatchAt(
  problem: DispatchCase,
  sizes: NewSizes,
  solver: LpSolver,
  options: SolveOptions = {},
): Plan {
  const formulation = formulate(atSizes(problem, sizes));
  const answer = solved(solver, formulation, options);
  return readPlan(formulation, cleanAnswer(formulation, answer.primal), answer.rowDual);
}

interface QuickAnswer {
  readonly formulation: Formulation;
  readonly answer: LpAnswer;
  readonly primal: Float64Array;
  readonly exact: LpAnswer;
  readonly sizes: NewSizes;
  readonly remarks: readonly string[];
}

/** Typical days by the quick solver, checked by the exact one, which stands in where the quick one fails. */
function solveDays(days: TypicalDays, { solvers }: SizingOptions): QuickAnswer {
  const formulation = formulate(days.problem);
  const exact = solved(solvers.exact, formulation, {});
  const quick = solveOnce(solvers.quick, formulation.program);
  const agrees =
    quick.status === "optimal" &&
    Math.abs(quick.objective - exact.objective) <= 1e-6 * Math.abs(exact.objective) &&
    verify(formulation.program, quick.primal, null).primalResidual <= 1e-6 * scaleOf(formulation.program);
  const answer = agrees ? quick : exact;
  const primal = cleanAnswer(formulation, answer.primal);
  return {
    formulation,
    answer,
    primal,
    exact,
    sizes: readSizes(formulation, primal),
    remarks: agrees
      ? []
      : [
          `The typical days were solved by ${exact.solver}: ${quick.solver} gave ${quick.status} with another objective or a broken row.`,
        ],
  };
}

interface Answer {
  readonly plan: Plan;
  readonly proof: Proof;
  readonly duals: Findings["duals"];
  readonly conflicts: readonly Conflict[];
  readonly typicalDays: TypicalDaysFigures;
  readonly formulation: Formulation;
  readonly remarks: readonly string[];
}

function dayFigures(
  model: PlantModel,
  days: TypicalDays,
  quick: QuickAnswer,
  dispatch: { readonly plan: Plan; readonly objective: number },
): TypicalDaysFigures {
  const daysPlan = readPlan(quick.formulation, quick.primal, null);
  return {
    days: days.days.map(({ day, weight, why }) => ({ dayOfYear: day + 1, weight, why })),
    sizes: sizesOf(model, quick.sizes),
    solver: quick.answer.solver,
    objective: quick.answer.objective,
    solve_s: quick.answer.solve_s,
    solarFraction: fractionOf(daysPlan, days.problem),
    dispatchObjective: dispatch.objective,
    dispatchSolarFraction: fractionOf(dispatch.plan, model.problem),
  };
}

function fractionOf(plan: Plan, problem: DispatchCase): number {
  let demand = 0;
  let other = 0;
  for (const network of plan.hours.networks) {
    for (let t = 0; t < problem.blocks; t += 1) {
      demand += network.demand_kW[t] * problem.weight[t];
      other += (network.backup_kW[t] + network.unmet_kW[t]) * problem.weight[t];
    }
  }
  return demand > 0 ? 1 - other / demand : 0;
}

/**
 * Typical days give the sizes; the proof is of their program, the year is dispatched at them. Boilers
 * that may grow do so in the year, since a few days do not hold its coldest hour; the least solar
 * fraction was the days' to keep, and a remark says where the year misses it.
 */
function sizeByDays(
  model: PlantModel,
  days: TypicalDays,
  quick: QuickAnswer,
  options: SizingOptions,
  watched: SolveOptions,
): Answer {
  const held = { ...atSizes(unlimited(model.problem), quick.sizes), backups: model.problem.backups };
  const formulation = formulate(held);
  const dispatch = solved(options.solvers.exact, formulation, watched);
  const primal = cleanAnswer(formulation, dispatch.primal);
  const plan = readPlan(formulation, primal, dispatch.rowDual);
  const daysPlan = readPlan(quick.formulation, quick.primal, null);
  const proof = proofOf("typical-days", quick.formulation, quick.answer, quick.primal, quick.exact, plan);
  const figures = dayFigures(model, days, quick, { plan, objective: dispatch.objective });
  const asked = model.problem.limits.leastSolarFraction;
  const missed = asked !== null && figures.dispatchSolarFraction < asked - 1e-6;
  return {
    plan,
    proof,
    duals:
      quick.exact.rowDual === null
        ? null
        : {
            formulation: quick.formulation,
            rowDual: quick.exact.rowDual,
            sizes: quick.sizes,
          },
    conflicts: [
      ...unmetConflicts({ model, plan, formulation, rowDual: dispatch.rowDual }),
      ...limitConflicts(model, quick.formulation, daysPlan, options.solvers.exact),
    ],
    typicalDays: figures,
    formulation: quick.formulation,
    remarks: missed
      ? [
          `At the sizes of the typical days the full year reaches a solar fraction of ${figures.dispatchSolarFraction.toFixed(3)}, ` +
            `less than the ${asked} asked for; the full-year method keeps to it.`,
        ]
      : [],
  };
}

/** The exact solver on the full year, started from a dispatch at sizes that are near. */
function sizeByYear(
  model: PlantModel,
  days: TypicalDays,
  quick: QuickAnswer,
  options: SizingOptions,
  watched: SolveOptions,
): Answer {
  const { problem } = model;
  const { solvers } = options;
  const progress = options.onProgress ?? (() => {});
  const free = formulate(problem, { keepSizeColumns: true });
  const { program } = free;
  const session = solvers.exact.open(program);
  try {
    holdSizes(session, free, quick.sizes);
    const first = demandOptimal(session.run(watched));
    const firstPlan = readPlan(free, cleanAnswer(free, first.primal), first.rowDual);
    const figures = dayFigures(model, days, quick, { plan: firstPlan, objective: first.objective });

    let spent_s = first.solve_s;
    let scout: LpAnswer | null = null;
    if (solvers.scout !== undefined) {
      progress(`Full year: finding sizes (${solvers.scout.name})`, 0.3);
      scout = solveOnce(solvers.scout, program, watched);
      if (scout.status === "stopped") throw new StoppedError("stopped before there was an answer");
      if (scout.status === "optimal") {
        progress("Full year: dispatch at the sizes found", 0.55);
        holdSizes(session, free, readSizes(free, scout.primal));
        spent_s += demandOptimal(session.run(watched)).solve_s;
      }
      spent_s += scout.solve_s;
    }

    progress(`Full year: finding sizes (${solvers.exact.name})`, 0.6);
    freeSizes(session, free);
    const expected = program.rows;
    const last = demandOptimal(
      session.run({
        ...watched,
        onIterations: (iterations) => {
          progress(
            `Full year: finding sizes (${solvers.exact.name}, ${iterations} steps)`,
            0.6 + 0.3 * (1 - Math.exp(-iterations / expected)),
          );
        },
      }),
    );
    const primal = cleanAnswer(free, last.primal);
    const plan = readPlan(free, primal, last.rowDual);
    const proof = proofOf("full-year", free, last, primal, last, plan);
    const secondOpinion =
      scout?.status === "optimal"
        ? {
            solver: scout.solver,
            objective: scout.objective,
            relativeDifference: Math.abs(scout.objective - last.objective) / (1 + Math.abs(last.objective)),
          }
        : null;
    return {
      plan,
      proof: { ...proof, solve_s: spent_s + last.solve_s, secondOpinion },
      duals: last.rowDual === null ? null : { formulation: free, rowDual: last.rowDual, sizes: plan.sizes },
      conflicts: [
        ...unmetConflicts({ model, plan, formulation: free, rowDual: last.rowDual }),
        ...limitConflicts(model, free, plan, solvers.exact),
      ],
      typicalDays: figures,
      formulation: free,
      remarks: [],
    };
  } finally {
    session.close();
  }
}
