import type { Formulation } from "../dispatch/formulate.ts";
import type { LinearProgram, LpSolver } from "../dispatch/program.ts";
import { solveOnce } from "../dispatch/program.ts";
import type { Plan } from "../dispatch/read-plan.ts";
import { unmetConflicts } from "./explain-unmet.ts";
import { inWords } from "./in-words.ts";
import type { PlantModel } from "./plant-model.ts";
import type { Conflict } from "./result.ts";

/** Violations below this, in the limit's own unit, are rounding. */
const tolerance = 1e-6;
/** Of all heat asked for: no solver keeps a row over so many hours more exactly. */
export const fractionTolerance = 1e-7;

/**
 * Says which limits conflict and by how much, where the answer stretches one. For each limit a second
 * program finds the least stretch that suffices while everything else holds and all demand is met: what
 * that limit alone would have to be.
 *
 * @param plan the answer with its stretches and unmet amounts
 */
export function limitConflicts(
  model: PlantModel,
  formulation: Formulation,
  plan: Plan,
  solver: LpSolver,
): Conflict[] {
  const { stretch } = plan;
  const least_kWh = Math.max(tolerance, fractionTolerance * heatAsked_kWh(formulation));
  const stretched =
    stretch.land_m2 > tolerance || stretch.budget > tolerance || stretch.fraction_kWh > least_kWh;
  if (!stretched) return [];
  const allMet = unmetConflicts({ model, plan, formulation, rowDual: null }).length === 0;
  const { problem, layout } = formulation;
  const { limits } = problem;
  const currency = model.study.money.currency;
  const conflicts: Conflict[] = [];
  const least = (column: number) => leastStretch(formulation, column, solver, allMet);

  if (layout.stretch.fraction >= 0 && limits.leastSolarFraction !== null) {
    const over_kWh = least(layout.stretch.fraction);
    if (over_kWh !== null && over_kWh > tolerance) {
      const by = over_kWh / heatAsked_kWh(formulation);
      conflicts.push({
        what: "Solar fraction",
        by,
        unit: "1",
        sentence:
          `Within the other limits the solar fraction reaches ${inWords(limits.leastSolarFraction - by)} at most; ` +
          `at least ${limits.leastSolarFraction} was asked for.`,
      });
    }
  }
  if (layout.stretch.land >= 0 && limits.land_m2 !== null) {
    const over_m2 = least(layout.stretch.land);
    if (over_m2 !== null && over_m2 > tolerance) {
      conflicts.push({
        what: "Land",
        by: over_m2,
        unit: "m²",
        sentence:
          `With the other limits as they are, ${inWords(limits.land_m2 + over_m2)} m² of land are needed, ` +
          `${inWords(over_m2)} m² more than the ${inWords(limits.land_m2)} m² allowed.`,
      });
    }
  }
  if (layout.stretch.budget >= 0 && limits.budget !== null) {
    const over = least(layout.stretch.budget);
    if (over !== null && over > tolerance) {
      conflicts.push({
        what: "Budget",
        by: over,
        unit: currency,
        sentence:
          `With the other limits as they are, ${inWords(limits.budget + over)} ${currency} of initial capital are needed, ` +
          `${inWords(over)} more than the ${inWords(limits.budget)} allowed.`,
      });
    }
  }
  if (conflicts.length === 0) {
    conflicts.push({
      what: "Limits",
      by: Number.NaN,
      unit: "1",
      sentence: "No single limit can be stretched far enough while the others hold; loosen two of them.",
    });
  }
  return conflicts;
}

/**
 * The least value of one stretch with all others at zero, and with all demand met where it can be;
 * null where there is none.
 */
function leastStretch(
  { program, layout }: Formulation,
  column: number,
  solver: LpSolver,
  allMet: boolean,
): number | null {
  const cost = new Float64Array(program.columns);
  cost[column] = 1;
  const colUpper = program.colUpper.slice();
  const { land, budget, fraction } = layout.stretch;
  for (const other of [land, budget, fraction]) if (other >= 0 && other !== column) colUpper[other] = 0;
  if (allMet) {
    const unmet = [layout.unmet, layout.unmetCold, layout.unmetWater, layout.unmetBatch].flat();
    for (const columns of unmet) for (const other of columns) if (other >= 0) colUpper[other] = 0;
  }
  const only: LinearProgram = { ...program, cost, colUpper };
  const answer = solveOnce(solver, only);
  return answer.status === "optimal" ? answer.primal[column] : null;
}

/** Heat of the fixed, water and batch loads, kWh a year: the base of the solar fraction but for chillers. */
function heatAsked_kWh({ problem }: Formulation): number {
  let sum = 0;
  for (let t = 0; t < problem.blocks; t += 1) {
    const hours = problem.weight[t] * problem.step_h;
    for (const network of problem.networks) sum += hours * network.fixed_kW[t];
    for (const order of problem.water) sum += hours * order.order_m3_h[t] * order.heat_kWh_per_m3[t];
  }
  for (const batch of problem.batches) {
    for (const window of batch.windows) sum += problem.weight[window[0]] * batch.heat_kWh;
  }
  return sum;
}
