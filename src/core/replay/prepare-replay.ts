import type { DispatchCase, NewSizes } from "../dispatch/case.ts";
import { hourState, setSizes, startEmpty } from "./hour-state.ts";
import { noRules, type OperatingRules } from "./operating-rules.ts";
import { planWriter, type ReplayPlan } from "./replay-plan.ts";
import { replayPlant } from "./replay-plant.ts";
import { Counter, type PriceSet, type ReplayTotals } from "./replay-totals.ts";
import { hourRunner } from "./run-hour.ts";

export interface PreparedReplay {
  /** The sums alone, for many sizes one after the other. */
  run(sizes: NewSizes): ReplayTotals;
  /** The sums and every hour. */
  plan(sizes: NewSizes): ReplayPlan;
}

/**
 * The simple controller of docs/methods/replay.md made ready for many sizes of one problem. It knows
 * nothing of the future, starts each cycle with empty stores and tanks and leaves its content worth
 * nothing. Buffers are used again, so one object serves one caller at a time.
 *
 * @param alsoAt further prices at which the totals are counted
 */
export function prepareReplay(
  problem: DispatchCase,
  rules: OperatingRules = noRules(problem),
  alsoAt: readonly PriceSet[] = [],
): PreparedReplay {
  const plant = replayPlant(problem, rules);
  const state = hourState(plant);
  const counter = new Counter(plant, alsoAt);
  const runHour = hourRunner(plant);

  const through = (sizes: NewSizes, write: ((t: number) => void) | null): ReplayTotals => {
    setSizes(plant, state, sizes);
    counter.start();
    for (const { start, length } of problem.cycles) {
      startEmpty(plant, state);
      for (let t = start; t < start + length; t += 1) {
        runHour(state, t, null);
        counter.count(state, t);
        write?.(t);
      }
    }
    return counter.totals(state, sizes);
  };
  return {
    run: (sizes) => through(sizes, null),
    plan: (sizes) => {
      const writer = planWriter(plant);
      const totals = through(sizes, (t) => writer.write(state, t));
      return writer.finish(sizes, totals);
    },
  };
}
