import { balanceResidual_kW } from "../../dispatch/balance-check.ts";
import { atSizes, type DispatchCase, unlimited } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { formulate } from "../../dispatch/formulate.ts";
import type { LpSolver } from "../../dispatch/program.ts";
import { type Plan, readPlan } from "../../dispatch/read-plan.ts";
import type { TypicalDays } from "../../dispatch/typical-days.ts";
import { verify } from "../../dispatch/verify.ts";
import { limitConflicts } from "../explain-conflicts.ts";
import { unmetConflicts } from "../explain-unmet.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Conflict, WholeModules } from "../result.ts";
import { solved } from "./dispatch-at.ts";
import { fractionOf, missedFraction } from "./missed-fraction.ts";
import { candidateFields } from "./module-counts.ts";
import type { Watch } from "./solvers.ts";
import type { YearAnswer } from "./year-answer.ts";

export interface InModules {
  readonly answer: YearAnswer;
  /** Null where no collector with modules is built. */
  readonly wholeModules: WholeModules | null;
}

/** What solves the programs: the year's, and that of the typical days which gave the sizes. */
export interface ModuleSolving {
  readonly days: TypicalDays;
  readonly daysSolver: LpSolver;
  readonly year: LpSolver;
}

/**
 * The answer with the new aperture of every collector that comes in modules rounded to whole ones. Each way
 * of rounding (candidateFields) is held in the program that gave the sizes, the year's or the typical days', so
 * that all other sizes follow, and the year is dispatched at it. Of those that keep every limit the one of
 * the least annual cost is taken; where none does, the one that breaks them least, and what it breaks is told.
 * Program, proof and shadow prices stay those of the sizes before rounding, which gave them.
 */
export function inWholeModules(
  model: PlantModel,
  answer: YearAnswer,
  solving: ModuleSolving,
  { progress, watched }: Watch,
): InModules {
  const modules_m2 = model.fields.map(({ collector }) => collector.module_m2 ?? 0);
  const { fields_m2 } = answer.plan.sizes;
  if (!modules_m2.some((module_m2, f) => module_m2 > 0 && fields_m2[f] > 1e-6 * module_m2)) {
    return { answer, wholeModules: null };
  }
  const fullYear = answer.proof.method === "full-year";
  const dispatched = fullYear ? byYear : byDays;
  const candidates = candidateFields(model, fields_m2, modules_m2);
  const tried = candidates.map((candidate_m2, i) => {
    progress(`Whole modules: the year again (${i + 1} of ${candidates.length})`, 0.9);
    return dispatched(model, candidate_m2, solving, watched);
  });
  const { plan, conflicts, objective } = best(tried, model.problem, answer.plan);
  const free = fullYear ? answer.proof.objective : answer.typicalDays.dispatchObjective;
  return {
    answer: {
      ...answer,
      plan: withPrices(plan, answer.plan),
      conflicts,
      remarks: fullYear
        ? answer.remarks
        : missedFraction(model.problem.limits.leastSolarFraction, fractionOf(plan, model.problem)),
      proof: { ...answer.proof, balanceResidual_kW: balanceResidual_kW(plan.hours) },
    },
    wholeModules: {
      fields: model.fields.flatMap(({ collector, network }, f) => {
        const module_m2 = modules_m2[f];
        if (!(module_m2 > 0)) return [];
        const modules = Math.round(plan.sizes.fields_m2[f] / module_m2);
        return [{ id: collector.id, network: network.id, modules, module_m2, free_m2: fields_m2[f] }];
      }),
      objective,
      cost_per_year: objective - free,
    },
  };
}

interface Tried {
  /** The year. */
  readonly plan: Plan;
  readonly conflicts: readonly Conflict[];
  /** Annual cost of the year. */
  readonly objective: number;
  /** Of the program that gave the sizes, what it breaks included at its price. */
  readonly sizingObjective: number;
}

/**
 * The cheapest of those that keep every limit and the solar fraction that was asked for, or what the
 * year reached of it before rounding; else the cheapest that keeps every limit; else the one that breaks least.
 */
function best(tried: readonly Tried[], problem: DispatchCase, before: Plan): Tried {
  const asked = problem.limits.leastSolarFraction;
  const least = asked === null ? 0 : Math.min(asked, fractionOf(before, problem));
  const kept = tried.filter(({ conflicts }) => conflicts.length === 0);
  const sunny = kept.filter(({ plan }) => fractionOf(plan, problem) >= least - 1e-6);
  const leastOf = (group: readonly Tried[], cost: (one: Tried) => number) =>
    group.reduce((least, one) => (cost(one) < cost(least) ? one : least));
  if (kept.length === 0) return leastOf(tried, ({ sizingObjective }) => sizingObjective);
  return leastOf(sunny.length > 0 ? sunny : kept, ({ objective }) => objective);
}

/** The year's program with the fields held and all other sizes free to follow. */
function byYear(
  model: PlantModel,
  rounded_m2: Float64Array,
  { year }: ModuleSolving,
  watched: Watch["watched"],
): Tried {
  const formulation = formulate(withFields(model, model.problem, rounded_m2));
  const solution = solved(year, formulation, watched);
  const primal = cleanAnswer(formulation, solution.primal);
  const plan = readPlan(formulation, primal, solution.rowDual);
  const { objective } = verify(formulation.program, primal, null);
  return {
    plan,
    conflicts: [
      ...unmetConflicts({ model, plan, formulation, rowDual: solution.rowDual }),
      ...limitConflicts(model, formulation, plan, year),
    ],
    objective,
    sizingObjective: objective,
  };
}

/** The typical days' program with the fields held, then the year at the sizes that follow. */
function byDays(
  model: PlantModel,
  rounded_m2: Float64Array,
  { days, daysSolver, year }: ModuleSolving,
  watched: Watch["watched"],
): Tried {
  const short = formulate(withFields(model, days.problem, rounded_m2));
  const answer = solved(daysSolver, short, watched);
  const shortPrimal = cleanAnswer(short, answer.primal);
  const shortPlan = readPlan(short, shortPrimal, null);
  const formulation = formulate({
    ...atSizes(unlimited(model.problem), shortPlan.sizes),
    backups: model.problem.backups,
  });
  const solution = solved(year, formulation, watched);
  const primal = cleanAnswer(formulation, solution.primal);
  const plan = readPlan(formulation, primal, solution.rowDual);
  return {
    plan,
    conflicts: [
      ...unmetConflicts({ model, plan, formulation, rowDual: solution.rowDual }),
      ...limitConflicts(model, short, shortPlan, daysSolver),
    ],
    objective: verify(formulation.program, primal, null).objective,
    sizingObjective: verify(short.program, shortPrimal, null).objective,
  };
}

/** A problem with the fields of modules held and everything else as free as it was. */
function withFields({ fields }: PlantModel, problem: DispatchCase, rounded_m2: Float64Array): DispatchCase {
  const inModules = (f: number) => fields[f].collector.module_m2 !== undefined;
  const isHeld = new Set(fields.flatMap((_, f) => (inModules(f) ? [problem.fields[f].collector] : [])));
  return {
    ...problem,
    collectors: problem.collectors.map((collector, c) =>
      isHeld.has(c) ? { ...collector, least_m2: 0, most_m2: Number.POSITIVE_INFINITY } : collector,
    ),
    fields: problem.fields.map((field, f) =>
      inModules(f) ? { ...field, least_m2: rounded_m2[f], most_m2: rounded_m2[f] } : field,
    ),
  };
}

/** Marginal costs of heat stay those of the program in which all sizes were free to follow. */
function withPrices(plan: Plan, priced: Plan): Plan {
  return {
    ...plan,
    hours: {
      ...plan.hours,
      networks: plan.hours.networks.map((network, k) => ({
        ...network,
        marginal_per_kWh: priced.hours.networks[k].marginal_per_kWh,
      })),
    },
  };
}
