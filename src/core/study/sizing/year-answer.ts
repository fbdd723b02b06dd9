import type { Formulation } from "../../dispatch/formulate.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import type { Findings } from "../report/result-of.ts";
import type { Conflict, Proof, TypicalDaysFigures } from "../result.ts";

/** What a method of sizing finds out. */
export interface YearAnswer {
  readonly plan: Plan;
  readonly proof: Proof;
  readonly duals: Findings["duals"];
  readonly conflicts: readonly Conflict[];
  readonly typicalDays: TypicalDaysFigures;
  readonly formulation: Formulation;
  readonly remarks: readonly string[];
}
