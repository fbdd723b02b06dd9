import type { NewSizes } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { type Formulation, formulate } from "../../dispatch/formulate.ts";
import { type LpAnswer, solveOnce } from "../../dispatch/program.ts";
import { type Plan, readPlan, readSizes } from "../../dispatch/read-plan.ts";
import type { TypicalDays } from "../../dispatch/typical-days.ts";
import { scaleOf, verify } from "../../dispatch/verify.ts";
import type { PlantModel } from "../plant-model.ts";
import { sizesOf } from "../report/sizes.ts";
import type { TypicalDaysFigures } from "../result.ts";
import { solved } from "./dispatch-at.ts";
import { fractionOf } from "./missed-fraction.ts";
import type { Solvers } from "./solvers.ts";

export interface QuickAnswer {
  readonly formulation: Formulation;
  readonly answer: LpAnswer;
  readonly primal: Float64Array;
  readonly exact: LpAnswer;
  readonly sizes: NewSizes;
  readonly remarks: readonly string[];
}

/** Typical days by the quick solver, checked by the exact one, which stands in where the quick one fails. */
export function solveDays(days: TypicalDays, solvers: Solvers): QuickAnswer {
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

export function dayFigures(
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
