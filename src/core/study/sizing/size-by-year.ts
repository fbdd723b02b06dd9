import { atSizes, type NewSizes, unlimited } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { type Formulation, formulate } from "../../dispatch/formulate.ts";
import { demandOptimal, type LpAnswer, type LpSolver, solveOnce } from "../../dispatch/program.ts";
import { type Plan, readPlan, readSizes } from "../../dispatch/read-plan.ts";
import { freeSizes, holdSizes } from "../../dispatch/size-bounds.ts";
import type { TypicalDays } from "../../dispatch/typical-days.ts";
import { verify } from "../../dispatch/verify.ts";
import { limitConflicts } from "../explain-conflicts.ts";
import { unmetConflicts } from "../explain-unmet.ts";
import type { PlantModel } from "../plant-model.ts";
import { proofOf } from "../proof-of.ts";
import type { Proof } from "../result.ts";
import { solved } from "./dispatch-at.ts";
import { type Solvers, type Watch, yearSolving } from "./solvers.ts";
import { dayFigures, type QuickAnswer } from "./typical-days-answer.ts";
import type { YearAnswer } from "./year-answer.ts";

/** Steps after which most full years are two thirds done. */
const usualSteps = 50;

/** Sizes and dispatch of the full year in one program, by the engine or what stands in for it. */
export function sizeByYear(
  model: PlantModel,
  days: TypicalDays,
  quick: QuickAnswer,
  year: LpSolver,
  { progress, watched }: Watch,
): YearAnswer {
  const atDays = dispatchAtDays(model, quick.sizes, year, { progress, watched });
  const free = formulate(model.problem);
  progress(`Full year: finding sizes (${year.name})`, 0.3);
  const answer = solved(year, free, {
    ...watched,
    onIterations: (steps) => {
      progress(
        `Full year: finding sizes (${year.name}, ${steps} steps)`,
        0.3 + 0.55 * (1 - Math.exp(-steps / usualSteps)),
      );
    },
  });
  return answerOf({ model, days, quick, year, free, answer, atDays, spent_s: 0, secondOpinion: null });
}

/**
 * The same by the exact solver. The engine first finds sizes to start from: the exact solver's last
 * basis is a proof of its own, wherever it started, and the engine's objective stands beside it.
 */
export function sizeByExact(
  model: PlantModel,
  days: TypicalDays,
  quick: QuickAnswer,
  solvers: Solvers,
  { progress, watched }: Watch,
): YearAnswer {
  const { exact, engine } = solvers;
  const { solver } = yearSolving(solvers, "interior-point");
  const atDays = dispatchAtDays(model, quick.sizes, solver, { progress, watched });
  const free = formulate(model.problem, { keepSizeColumns: true });
  const session = exact.open(free.program);
  try {
    progress(`Full year: sizes to start from (${engine.name})`, 0.2);
    const scout = solveOnce(engine, free.program, watched);
    if (scout.status === "stopped") demandOptimal(scout);
    progress("Full year: dispatch at the sizes found", 0.3);
    holdSizes(session, free, scout.status === "optimal" ? readSizes(free, scout.primal) : quick.sizes);
    const spent_s = demandOptimal(session.run(watched)).solve_s;

    progress(`Full year: finding sizes (${exact.name})`, 0.4);
    freeSizes(session, free);
    const answer = demandOptimal(
      session.run({
        ...watched,
        onIterations: (steps) => {
          progress(
            `Full year: finding sizes (${exact.name}, ${steps} steps)`,
            0.4 + 0.5 * (1 - Math.exp(-steps / free.program.rows)),
          );
        },
      }),
    );
    const secondOpinion =
      scout.status === "optimal"
        ? {
            solver: scout.solver,
            objective: scout.objective,
            relativeDifference:
              Math.abs(scout.objective - answer.objective) / (1 + Math.abs(answer.objective)),
          }
        : null;
    return answerOf({ model, days, quick, year: exact, free, answer, atDays, spent_s, secondOpinion });
  } finally {
    session.close();
  }
}

/** The year at the typical days' sizes, to tell what the days are worth. */
function dispatchAtDays(
  model: PlantModel,
  sizes: NewSizes,
  year: LpSolver,
  { progress, watched }: Watch,
): { readonly plan: Plan; readonly objective: number } {
  progress("Full year: dispatch at the typical days' sizes", 0.12);
  const held = formulate({ ...atSizes(unlimited(model.problem), sizes), backups: model.problem.backups });
  const answer = solved(year, held, watched);
  const primal = cleanAnswer(held, answer.primal);
  return {
    plan: readPlan(held, primal, answer.rowDual),
    objective: verify(held.program, primal, null).objective,
  };
}

function answerOf(found: {
  readonly model: PlantModel;
  readonly days: TypicalDays;
  readonly quick: QuickAnswer;
  readonly year: LpSolver;
  readonly free: Formulation;
  readonly answer: LpAnswer;
  readonly atDays: { readonly plan: Plan; readonly objective: number };
  readonly spent_s: number;
  readonly secondOpinion: Proof["secondOpinion"];
}): YearAnswer {
  const { model, free, answer } = found;
  const primal = cleanAnswer(free, answer.primal);
  const plan = readPlan(free, primal, answer.rowDual);
  const proof = proofOf("full-year", free, answer, primal, answer, plan);
  return {
    plan,
    proof: { ...proof, solve_s: found.spent_s + answer.solve_s, secondOpinion: found.secondOpinion },
    duals:
      answer.rowDual === null
        ? null
        : { formulation: free, rowDual: answer.rowDual, primal, sizes: plan.sizes },
    conflicts: [
      ...unmetConflicts({ model, plan, formulation: free, rowDual: answer.rowDual }),
      ...limitConflicts(model, free, plan, found.year),
    ],
    typicalDays: dayFigures(model, found.days, found.quick, found.atDays),
    formulation: free,
    remarks: [],
  };
}
