import { atSizes, unlimited } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { formulate } from "../../dispatch/formulate.ts";
import type { LpSolver } from "../../dispatch/program.ts";
import { readPlan } from "../../dispatch/read-plan.ts";
import type { TypicalDays } from "../../dispatch/typical-days.ts";
import { verify } from "../../dispatch/verify.ts";
import { limitConflicts } from "../explain-conflicts.ts";
import { unmetConflicts } from "../explain-unmet.ts";
import type { PlantModel } from "../plant-model.ts";
import { proofOf } from "../proof-of.ts";
import { solved } from "./dispatch-at.ts";
import { missedFraction } from "./missed-fraction.ts";
import type { Solvers, Watch } from "./solvers.ts";
import { dayFigures, type QuickAnswer } from "./typical-days-answer.ts";
import type { YearAnswer } from "./year-answer.ts";

/**
 * Typical days give the sizes; the proof is of their program, the year is dispatched at them. Boilers
 * that may grow do so in the year, since a few days do not hold its coldest hour; the least solar
 * fraction was the days' to keep, and a remark says where the year misses it.
 */
export function sizeByDays(
  model: PlantModel,
  days: TypicalDays,
  quick: QuickAnswer,
  solvers: Solvers,
  year: LpSolver,
  { watched }: Watch,
): YearAnswer {
  const held = { ...atSizes(unlimited(model.problem), quick.sizes), backups: model.problem.backups };
  const formulation = formulate(held);
  const dispatch = solved(year, formulation, watched);
  const primal = cleanAnswer(formulation, dispatch.primal);
  const plan = readPlan(formulation, primal, dispatch.rowDual);
  const daysPlan = readPlan(quick.formulation, quick.primal, null);
  const proof = proofOf("typical-days", quick.formulation, quick.answer, quick.primal, quick.exact, plan);
  const figures = dayFigures(model, days, quick, {
    plan,
    objective: verify(formulation.program, primal, null).objective,
  });
  return {
    plan,
    proof,
    duals:
      quick.exact.rowDual === null
        ? null
        : {
            formulation: quick.formulation,
            rowDual: quick.exact.rowDual,
            primal: quick.primal,
            sizes: quick.sizes,
          },
    conflicts: [
      ...unmetConflicts({ model, plan, formulation, rowDual: dispatch.rowDual }),
      ...limitConflicts(model, quick.formulation, daysPlan, solvers.exact),
    ],
    typicalDays: figures,
    formulation: quick.formulation,
    remarks: missedFraction(model.problem.limits.leastSolarFraction, figures.dispatchSolarFraction),
  };
}
