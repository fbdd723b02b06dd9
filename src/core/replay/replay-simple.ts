import type { DispatchCase, NewSizes } from "../dispatch/case.ts";
import type { OperatingRules } from "./operating-rules.ts";
import { prepareReplay } from "./prepare-replay.ts";
import type { ReplayPlan } from "./replay-plan.ts";

/** The plant of a problem at given new sizes, run hour by hour by the simple controller. */
export function replaySimple(problem: DispatchCase, sizes: NewSizes, rules?: OperatingRules): ReplayPlan {
  return prepareReplay(problem, rules).plan(sizes);
}
