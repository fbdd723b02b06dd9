import { formulate } from "../../core/dispatch/formulate.ts";
import { type LinearProgram, type LpAnswer, type LpSolver, solveOnce } from "../../core/dispatch/program.ts";
import { verify } from "../../core/dispatch/verify.ts";
import { loadHighs } from "../../solver/highs.ts";
import { interiorPoint } from "../../solver/interior-point/interior-point.ts";
import { instanceNamed } from "../all-instances.ts";
import { median } from "../measure.ts";

/** What a solver made of a program. */
export interface Lap {
  readonly status: string;
  readonly objective: number;
  readonly iterations: number;
  /** Of the first solve in a process, its own time. */
  readonly first_s: number;
  /** Of the second, or the first where there was one alone. */
  readonly second_s: number;
  /** Median of all but the first, or the first where there was one alone. */
  readonly again_s: number;
  readonly runs: number;
  /** Recomputed by `verify`; null where there was no answer or no duals. */
  readonly relativeGap: number | null;
  readonly primalResidual: number | null;
  readonly dualResidual: number | null;
}

export interface Race {
  readonly columns: number;
  readonly rows: number;
  readonly entries: number;
  readonly formulate_s: number;
  readonly engine: Lap;
  /** Null where HiGHS was not asked. */
  readonly highs: Lap | null;
}

export interface RaceOptions {
  readonly withHighs: boolean;
  readonly onProgress: (line: string) => void;
}

/** Enough runs for a median, but no more when they have taken this long. */
const enough_s = 12;

/**
 * Both solvers on one program. The engine goes first, in a process that HiGHS has not filled yet: behind
 * it the engine was a quarter slower.
 */
export async function race(name: string, { withHighs, onProgress }: RaceOptions): Promise<Race> {
  const instance = await instanceNamed(name);
  const began = performance.now();
  const { program } = formulate(instance.problem());
  const formulate_s = (performance.now() - began) / 1000;
  const [ours, theirs]: [LpAnswer[], LpAnswer[]] = [[], []];
  const run = (solver: LpSolver, laps: LpAnswer[]) => {
    const answer = solveOnce(solver, program);
    laps.push(answer);
    onProgress(
      `${solver.name}: ${answer.status} in ${answer.solve_s.toFixed(3)} s, ${answer.iterations} iterations`,
    );
  };
  const wantsMore = (laps: readonly LpAnswer[], least: number, most: number) =>
    laps.length < least || (laps.length < most && laps.reduce((all, lap) => all + lap.solve_s, 0) < enough_s);
  while (wantsMore(ours, 2, 7)) run(interiorPoint, ours);
  const highs = withHighs ? await loadHighs() : null;
  while (highs !== null && wantsMore(theirs, 1, 3)) run(highs, theirs);
  return {
    columns: program.columns,
    rows: program.rows,
    entries: program.values.length,
    formulate_s,
    engine: lapOf(program, ours),
    highs: highs === null ? null : lapOf(program, theirs),
  };
}

function lapOf(program: LinearProgram, answers: readonly LpAnswer[]): Lap {
  const last = answers[answers.length - 1]!;
  const later = answers.slice(1);
  const proof = last.status === "optimal" ? verify(program, last.primal, last.rowDual) : null;
  return {
    status: last.status,
    objective: last.objective,
    iterations: last.iterations,
    first_s: answers[0]!.solve_s,
    second_s: (answers[1] ?? answers[0]!).solve_s,
    again_s: median((later.length > 0 ? later : answers).map(({ solve_s }) => solve_s)),
    runs: answers.length,
    relativeGap: proof?.relativeGap ?? null,
    primalResidual: proof?.primalResidual ?? null,
    dualResidual: proof?.dualResidual ?? null,
  };
}
