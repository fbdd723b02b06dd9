import type { DispatchCase, NewSizes } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { type Formulation, formulate } from "../../dispatch/formulate.ts";
import { joinYears } from "../../dispatch/join-years.ts";
import { demandOptimal, type LpAnswer, type LpSolver, type SolveOptions } from "../../dispatch/program.ts";
import { type Plan, readPlan } from "../../dispatch/read-plan.ts";
import { holdSizes } from "../../dispatch/size-bounds.ts";
import { verify } from "../../dispatch/verify.ts";

/** One program's answer. `cost` is its objective, recomputed from the cleaned columns. */
export interface SolvedProgram {
  readonly formulation: Formulation;
  readonly answer: LpAnswer;
  readonly primal: Float64Array;
  readonly plan: Plan;
  readonly cost: number;
}

export interface RobustProgram {
  /** All years in one program, sizes in common. */
  readonly common: SolvedProgram;
  /** Each year sized for itself, as if it had been known. */
  readonly known: readonly { readonly plan: Plan; readonly cost: number }[];
  /** The common program with all sizes but boilers held at `own`; null where none were given. */
  readonly atOwn: SolvedProgram | null;
}

export interface RobustProgramOptions {
  readonly solver: LpSolver;
  /** Sizes to compare with. */
  readonly own?: NewSizes;
  readonly watched?: SolveOptions;
  readonly onProgress?: (doing: string, share: number) => void;
}

/**
 * One plant for several years: the recourse program in which sizes are chosen before and dispatch after
 * the year is known (Birge & Louveaux 1997, Introduction to Stochastic Programming, ch. 1 and 4, from
 * memory). The least solar fraction holds in each year. Unmet demand and the tie-break have the same
 * price in every year and program, so that costs compare.
 *
 * @throws ModelError as joinYears; StoppedError
 */
export function robustProgram(
  cases: readonly DispatchCase[],
  probabilities: readonly number[],
  { solver, own, watched = {}, onProgress = () => {} }: RobustProgramOptions,
): RobustProgram {
  const joined = joinYears(cases, probabilities, { fractionIn: "each-year" });
  const known = cases.map((year, y) => {
    onProgress(`Year ${y + 1} of ${cases.length}: sizes if it were known`, (0.4 * y) / cases.length);
    // Thirty programs and their columns would fill the memory.
    const { plan, cost } = solve(
      formulate(
        {
          ...year,
          unmetPrice_per_kWh: joined.unmetPrice_per_kWh,
          tieBreak_per_kWh: joined.tieBreak_per_kWh,
        },
        withSizeColumns,
      ),
      solver,
      watched,
    );
    return { plan, cost };
  });

  const formulation = formulate(joined, withSizeColumns);
  const session = solver.open(formulation.program);
  try {
    const run = (doing: string, from: number, to: number) => {
      onProgress(doing, from);
      return answered(
        formulation,
        session.run({
          ...watched,
          onIterations: (steps) =>
            onProgress(`${doing} (${steps} steps)`, from + (to - from) * (1 - Math.exp(-steps / usualSteps))),
        }),
      );
    };
    const common = run(`All ${cases.length} years in one program`, 0.4, 0.75);
    if (own === undefined) return { common, known, atOwn: null };
    holdSizes(session, formulation, own, { boilersFree: true });
    return { common, known, atOwn: run("All years at the study's own sizes", 0.75, 1) };
  } finally {
    session.close();
  }
}

/** The same columns in every program, so that what cannot be met costs the same in each. */
const withSizeColumns = { keepSizeColumns: true } as const;

/** Steps after which most programs of years are two thirds done. */
const usualSteps = 50;

function solve(formulation: Formulation, solver: LpSolver, watched: SolveOptions): SolvedProgram {
  const session = solver.open(formulation.program);
  try {
    return answered(formulation, session.run(watched));
  } finally {
    session.close();
  }
}

function answered(formulation: Formulation, answer: LpAnswer): SolvedProgram {
  demandOptimal(answer);
  const primal = cleanAnswer(formulation, answer.primal);
  return {
    formulation,
    answer,
    primal,
    plan: readPlan(formulation, primal, answer.rowDual),
    cost: verify(formulation.program, primal, null).objective,
  };
}
