import { balanceResidual_kW } from "../dispatch/balance-check.ts";
import type { Formulation } from "../dispatch/formulate.ts";
import type { LpAnswer } from "../dispatch/program.ts";
import type { Plan } from "../dispatch/read-plan.ts";
import { verify } from "../dispatch/verify.ts";
import type { Proof } from "./result.ts";

/**
 * What is known of an answer, from its cleaned columns and the duals of `dual`, which may be another
 * solver's: any dual answer bounds every primal one. The balances are those of the written year.
 */
export function proofOf(
  method: Proof["method"],
  { program }: Formulation,
  answer: LpAnswer,
  cleaned: Float64Array,
  dual: LpAnswer,
  plan: Plan,
): Proof {
  const check = verify(program, cleaned, dual.rowDual);
  return {
    method,
    solver: answer.solver,
    status: answer.status,
    objective: answer.objective,
    recomputedObjective: check.objective,
    relativeGap: check.relativeGap,
    primalResidual: check.primalResidual,
    dualResidual: check.dualResidual,
    balanceResidual_kW: balanceResidual_kW(plan.hours),
    columns: program.columns,
    rows: program.rows,
    nonZeros: program.values.length,
    iterations: answer.iterations,
    solve_s: answer.solve_s,
    secondOpinion:
      dual.solver === answer.solver
        ? null
        : {
            solver: dual.solver,
            objective: dual.objective,
            relativeDifference:
              Math.abs(dual.objective - answer.objective) / (1 + Math.abs(answer.objective)),
          },
  };
}
