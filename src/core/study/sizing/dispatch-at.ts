import { atSizes, type DispatchCase, type NewSizes } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { type Formulation, formulate } from "../../dispatch/formulate.ts";
import {
  demandOptimal,
  type LpAnswer,
  type LpSolver,
  type SolveOptions,
  solveOnce,
} from "../../dispatch/program.ts";
import { type Plan, readPlan } from "../../dispatch/read-plan.ts";

/** Every program here has an answer, since what cannot be met has a price. */
export function solved(solver: LpSolver, formulation: Formulation, options: SolveOptions): LpAnswer {
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
