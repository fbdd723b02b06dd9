import type { DispatchCase, SizeCase } from "../dispatch/case.ts";
import { unlimited } from "../dispatch/case.ts";
import { cleanAnswer } from "../dispatch/clean-answer.ts";
import { formulate } from "../dispatch/formulate.ts";
import { demandOptimal, type LpSolver, type SolveOptions, solveOnce } from "../dispatch/program.ts";
import { type Plan, readPlan } from "../dispatch/read-plan.ts";

/**
 * What chillers, tanks and boilers alone would save. Heat stores are left out where neither existing
 * collectors nor backup that may charge could fill them.
 */
export function planWithoutCollectors(problem: DispatchCase, solver: LpSolver, watched: SolveOptions): Plan {
  const none: SizeCase = { existing: 0, least: 0, most: 0, annualCost_per_unit: 0, initialCost_per_unit: 0 };
  const bare: DispatchCase = {
    ...unlimited(problem),
    fields: problem.fields.map((field) => ({ ...field, least_m2: 0, most_m2: 0 })),
    stores: problem.stores.map((store) => {
      if (!("network" in store.serves)) return store;
      const { network } = store.serves;
      const mayCharge = problem.backups.some((backup) => backup.network === network && backup.mayCharge);
      const hasSun = problem.fields.some((field) => field.existing_m2 > 0);
      return mayCharge || hasSun ? store : { ...store, size: none, charger: null };
    }),
  };
  const withoutBounds: DispatchCase = {
    ...bare,
    collectors: bare.collectors.map((collector) => ({
      ...collector,
      least_m2: 0,
      most_m2: Number.POSITIVE_INFINITY,
    })),
  };
  const formulation = formulate(withoutBounds);
  const answer = demandOptimal(solveOnce(solver, formulation.program, watched));
  const plan = readPlan(formulation, cleanAnswer(formulation, answer.primal), answer.rowDual);
  return { ...plan, sizes: { ...plan.sizes, fields_m2: new Float64Array(problem.fields.length) } };
}
