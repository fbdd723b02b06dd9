import type { DispatchCase } from "../../src/core/dispatch/case.ts";
import { cleanAnswer } from "../../src/core/dispatch/clean-answer.ts";
import { type Formulation, formulate } from "../../src/core/dispatch/formulate.ts";
import { type LinearProgram, type LpSolver, solveOnce } from "../../src/core/dispatch/program.ts";
import { type Plan, readPlan, readSizes } from "../../src/core/dispatch/read-plan.ts";
import type { PlantModel } from "../../src/core/study/plant-model.ts";
import type { Duals } from "../../src/core/study/report/unit-worth.ts";

export interface PricedCase {
  readonly formulation: Formulation;
  readonly plan: Plan;
  readonly duals: Duals;
  readonly objective: number;
}

/** A case solved, with a column for every size unless said otherwise, and its duals. */
export function priceCase(problem: DispatchCase, solver: LpSolver, keepSizeColumns = true): PricedCase {
  const formulation = formulate(problem, { keepSizeColumns });
  const answer = solveOnce(solver, formulation.program);
  const primal = cleanAnswer(formulation, answer.primal);
  const plan = readPlan(formulation, primal, answer.rowDual);
  const sizes = readSizes(formulation, primal);
  return {
    formulation,
    plan,
    duals: { formulation, rowDual: answer.rowDual!, primal, sizes },
    objective: answer.objective,
  };
}

/** As much of a model as naming the things of a case takes: every name is the id. */
export function namedModel(problem: DispatchCase): PlantModel {
  const named = <T extends { readonly id: string }>(items: readonly T[]) =>
    items.map(({ id }) => ({ id, name: id }));
  const study = {
    networks: named(problem.networks),
    collectors: named(problem.collectors),
    stores: named(problem.stores),
    stepDowns: named(problem.stepDowns),
    chillers: named(problem.chillers),
    backups: named(problem.backups),
    money: { currency: "XTS" },
  };
  const fields = problem.fields.map(({ collector }) => ({ collector: study.collectors[collector] }));
  return { study, fields, problem } as unknown as PlantModel;
}

/** Least cost of a program with some bounds and costs changed; Infinity where it has no answer. */
export function leastCost(solver: LpSolver, program: LinearProgram): number {
  const answer = solveOnce(solver, program);
  return answer.status === "optimal" ? answer.objective : Number.POSITIVE_INFINITY;
}

/** The program with one column held at a value. */
export function heldAt(program: LinearProgram, column: number, value: number): LinearProgram {
  const colLower = program.colLower.slice();
  const colUpper = program.colUpper.slice();
  colLower[column] = value;
  colUpper[column] = value;
  return { ...program, colLower, colUpper };
}

/** The program with the bounds of some rows moved. */
export function rowsMoved(program: LinearProgram, rows: readonly number[], by: number): LinearProgram {
  const rowLower = program.rowLower.slice();
  const rowUpper = program.rowUpper.slice();
  for (const row of rows) {
    if (row < 0) continue;
    rowLower[row]! += by;
    rowUpper[row]! += by;
  }
  return { ...program, rowLower, rowUpper };
}
