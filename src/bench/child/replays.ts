import type { DispatchCase, NewSizes } from "../../core/dispatch/case.ts";
import { formulate } from "../../core/dispatch/formulate.ts";
import { demandOptimal, solveOnce } from "../../core/dispatch/program.ts";
import { readSizes } from "../../core/dispatch/read-plan.ts";
import type { Forecast } from "../../core/replay/forecast.ts";
import { noRules } from "../../core/replay/operating-rules.ts";
import { prepareReplay } from "../../core/replay/prepare-replay.ts";
import type { ReplayTotals } from "../../core/replay/replay-totals.ts";
import { replayTwoDay } from "../../core/replay/replay-two-day.ts";
import { loadHighs } from "../../solver/highs.ts";
import { interiorPoint } from "../../solver/interior-point/interior-point.ts";
import { instanceNamed } from "../all-instances.ts";
import { medianTime_s, timed } from "../measure.ts";

/** What a controller without full foresight made of the program's own plant. */
export interface ReplayLap {
  readonly controller: string;
  readonly prepare_s: number;
  /** Median of later runs. */
  readonly run_s: number;
  readonly cost: number;
  readonly solarFraction: number;
}

export interface Replays {
  /** Of the program, with perfect foresight, at its own sizes. */
  readonly cost: number;
  readonly laps: readonly ReplayLap[];
}

/** A controller made ready for a problem gives the sums of a year at any sizes. */
interface Controller {
  readonly name: string;
  readonly runs: number;
  readonly prepare: (problem: DispatchCase) => (sizes: NewSizes) => ReplayTotals;
}

/** Controllers in the order of the table: what plans less comes first. */
async function controllers(): Promise<readonly Controller[]> {
  const solver = await loadHighs();
  const twoDay =
    (forecast: Forecast): Controller["prepare"] =>
    (problem) =>
    (sizes) =>
      replayTwoDay(problem, sizes, noRules(problem), { solver, forecast }).totals;
  return [
    {
      name: "simple controller",
      runs: 41,
      prepare: (problem) => {
        const { run } = prepareReplay(problem);
        return run;
      },
    },
    { name: "two-day plan, tomorrow like today", runs: 1, prepare: twoDay("persistence") },
    { name: "two-day plan, two days known", runs: 1, prepare: twoDay("perfect") },
  ];
}

/** Sizes an instance by the engine and runs every controller on the plant found. */
export async function replays(name: string): Promise<Replays> {
  const problem = (await instanceNamed(name)).problem();
  const formulation = formulate(problem);
  const answer = demandOptimal(solveOnce(interiorPoint, formulation.program));
  const sizes = readSizes(formulation, answer.primal);
  const laps: ReplayLap[] = [];
  for (const controller of await controllers()) {
    const prepared = timed(() => controller.prepare(problem));
    const run = prepared.value;
    let totals = run(sizes);
    const run_s = await medianTime_s(controller.runs, () => {
      totals = run(sizes);
    });
    const { cost, solarFraction } = totals;
    laps.push({ controller: controller.name, prepare_s: prepared.time_s, run_s, cost, solarFraction });
  }
  return { cost: answer.objective, laps };
}
