import { atSizes, type DispatchCase, type NewSizes, unlimited } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { type Formulation, formulate } from "../../dispatch/formulate.ts";
import {
  demandOptimal,
  type LinearProgram,
  type LpSolver,
  type SolveOptions,
  solveOnce,
} from "../../dispatch/program.ts";
import { type Plan, readPlan } from "../../dispatch/read-plan.ts";
import type { CurvePoint } from "../curve-figures.ts";
import type { PlantModel } from "../plant-model.ts";
import { annualAgainst } from "../report/annual.ts";
import { levelisedOf } from "../report/money.ts";
import type { Costs } from "../result.ts";
import { boundProgram } from "./bound-program.ts";
import { heatStore_kWh, totalAperture_m2 } from "./curve-split.ts";

export interface BoundSolving {
  readonly baseline: Costs;
  readonly solver: LpSolver;
  readonly watched: SolveOptions;
}

/** What perfect foresight would give at a total aperture, split and other sizes free. @throws StoppedError */
export function boundAtTotal(model: PlantModel, line: NewSizes, solving: BoundSolving): CurvePoint {
  const { formulation, program } = boundProgram(model.problem, line);
  const point = planPoint(model, planOf(formulation, program, solving), solving.baseline);
  // The row holds to the solver's tolerance; its right-hand side is what was asked for.
  return { ...point, aperture_m2: totalAperture_m2(model, line) };
}

/** What perfect foresight would give at just these sizes; new boilers stay free. @throws StoppedError */
export function boundAtSizes(model: PlantModel, sizes: NewSizes, solving: BoundSolving): CurvePoint {
  const { problem } = model;
  const held: DispatchCase = { ...atSizes(unlimited(problem), sizes), backups: problem.backups };
  const formulation = formulate(held);
  return planPoint(model, planOf(formulation, formulation.program, solving), solving.baseline);
}

function planOf(formulation: Formulation, program: LinearProgram, { solver, watched }: BoundSolving): Plan {
  const { primal } = demandOptimal(solveOnce(solver, program, watched));
  return readPlan(formulation, cleanAnswer(formulation, primal), null);
}

function planPoint(model: PlantModel, plan: Plan, baseline: Costs): CurvePoint {
  const annual = annualAgainst(model, plan, baseline);
  return {
    by: "lp",
    aperture_m2: totalAperture_m2(model, plan.sizes),
    store_kWh: heatStore_kWh(model, plan.sizes),
    solarFraction: annual.solarFraction,
    fuelCostAvoided: annual.fuelCostAvoided,
    // Its baseline is not asked for here.
    annualCost: levelisedOf(model, plan, plan).annualCost,
    spilled_kWh: annual.spilled_kWh,
    unmet_kWh: annual.unmet_kWh,
  };
}
