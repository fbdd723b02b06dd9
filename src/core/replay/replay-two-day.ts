import type { DispatchCase, NewSizes } from "../dispatch/case.ts";
import { hourState, setSizes, startEmpty } from "./hour-state.ts";
import type { OperatingRules } from "./operating-rules.ts";
import { type PlanningOptions, planDays } from "./plan-days.ts";
import { planWriter, type ReplayPlan } from "./replay-plan.ts";
import { type ReplayPlant, replayPlant } from "./replay-plant.ts";
import { Counter } from "./replay-totals.ts";
import { hourRunner } from "./run-hour.ts";
import type { SetPoints } from "./set-points.ts";

export interface TwoDayOptions extends PlanningOptions {
  readonly onProgress?: (share: number) => void;
}

export interface TwoDayReplay extends ReplayPlan {
  /** Days without a plan: the first of a cycle by persistence, and where the solver had no answer. */
  readonly unplannedDays: number;
}

const hoursOfDay = 24;
const daysPlanned = 2;

/**
 * The plant of a problem at given new sizes, run by a controller that plans two days ahead at each
 * midnight (standard time), from what it expects by then, and carries the first day out against what
 * comes: docs/methods/replay.md. It starts empty and leaves its content worth nothing.
 *
 * @throws StoppedError
 */
export function replayTwoDay(
  problem: DispatchCase,
  sizes: NewSizes,
  rules: OperatingRules,
  options: TwoDayOptions,
): TwoDayReplay {
  const looksBack = replayPlant(problem, rules);
  // A controller that knows the orders needs no reserve against them.
  const plant: ReplayPlant =
    options.forecast === "perfect"
      ? {
          ...looksBack,
          waterReserve_m3: looksBack.waterReserve_m3.map(({ length }) => new Float64Array(length)),
        }
      : looksBack;
  const state = hourState(plant);
  const counter = new Counter(plant, []);
  const writer = planWriter(plant);
  const runHour = hourRunner(plant);
  const day = Math.max(1, Math.round(hoursOfDay / problem.step_h));
  let unplannedDays = 0;

  setSizes(plant, state, sizes);
  counter.start();
  for (const { start: cycleStart, length: cycleLength } of problem.cycles) {
    startEmpty(plant, state);
    const end = cycleStart + cycleLength;
    for (let start = cycleStart; start < end; start += day) {
      options.onProgress?.(start / problem.blocks);
      const length = Math.min(daysPlanned * day, end - start);
      // Without a day behind it there is nothing to expect; one block has no state to plan.
      const mayPlan = length > 1 && (options.forecast === "perfect" || start > cycleStart);
      let plan: SetPoints[] | null = null;
      if (mayPlan) plan = planDays(plant, state, sizes, { cycleStart, start, length, day }, options);
      if (plan === null) unplannedDays += 1;
      for (let t = start; t < Math.min(start + day, end); t += 1) {
        runHour(state, t, plan === null ? null : plan[t - start]);
        counter.count(state, t);
        writer.write(state, t);
      }
    }
  }
  return { ...writer.finish(sizes, counter.totals(state, sizes)), unplannedDays };
}
