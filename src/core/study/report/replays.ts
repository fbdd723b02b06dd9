import type { NewSizes } from "../../dispatch/case.ts";
import type { LpSolver } from "../../dispatch/program.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import type { ReplayPlan } from "../../replay/replay-plan.ts";
import { replaySimple } from "../../replay/replay-simple.ts";
import { replayTwoDay } from "../../replay/replay-two-day.ts";
import type { PlantModel } from "../plant-model.ts";
import type { ReplayFigures, Replays } from "../result.ts";
import { annualOf } from "./annual.ts";
import { coldYears } from "./cold-years.ts";
import type { FilmYears } from "./film-years.ts";
import { levelisedOf, moneyOf } from "./money.ts";
import { monthFigures } from "./months.ts";
import { networkYears } from "./networks.ts";

export interface ReplayWatch {
  readonly onProgress?: (doing: string, share: number) => void;
  readonly shouldStop?: () => boolean;
}

export interface ReplaysOptions extends ReplayWatch {
  /** Of the small programs of the two-day plan; null: the simple controller alone. */
  readonly planner: LpSolver | null;
  readonly film: FilmYears | null;
}

/** The plan with perfect foresight, as far as a replay is compared with it. */
export interface Bound {
  readonly sizes: NewSizes;
  /** As `levelised.annualCost`. */
  readonly annualCost: number;
}

/** Today's plant, and the years of the film, that a replay's money is told against. */
export interface Against {
  readonly baseline: Plan;
  readonly film: FilmYears | null;
}

/**
 * The same plant and year run by controllers without foresight (docs/methods/replay.md), each against
 * the same baseline as the plan with perfect foresight.
 *
 * @throws StoppedError
 */
export function replaysOf(model: PlantModel, plan: Plan, baseline: Plan, options: ReplaysOptions): Replays {
  const { planner, film, onProgress } = options;
  const bound = { sizes: plan.sizes, annualCost: levelisedOf(model, plan, baseline).annualCost };
  onProgress?.("Replay without foresight: the simple controller", 0);
  const simple = figuresOf(
    model,
    replaySimple(model.problem, bound.sizes, model.rules),
    bound,
    { baseline, film },
    "The simple controller",
  );
  return {
    simple,
    twoDay: planner === null ? null : twoDayReplay(model, bound, { baseline, film }, planner, options),
  };
}

/** The plant run by plans two days ahead, 365 small programs. @throws StoppedError */
export function twoDayReplay(
  model: PlantModel,
  bound: Bound,
  against: Against,
  planner: LpSolver,
  { onProgress, shouldStop }: ReplayWatch = {},
): ReplayFigures {
  const plan = replayTwoDay(model.problem, bound.sizes, model.rules, {
    solver: planner,
    forecast: "persistence",
    onProgress: (share) => onProgress?.(`Replay by two-day plans: day ${Math.round(365 * share) + 1}`, share),
    ...(shouldStop === undefined ? {} : { shouldStop }),
  });
  return figuresOf(model, plan, bound, against, "The controller that plans two days ahead");
}

function figuresOf(
  model: PlantModel,
  plan: ReplayPlan,
  bound: Bound,
  { baseline, film }: Against,
  who: string,
): ReplayFigures {
  const annual = annualOf(model, plan, baseline);
  const levelised = levelisedOf(model, plan, baseline);
  const { annualCost } = levelised;
  const gap_per_year = annualCost - bound.annualCost;
  const { totals } = plan;
  const wasted_kWh = Math.max(
    0,
    totals.backupFired_kWh.reduce((all, heat) => all + heat, 0) - totals.backup_kWh,
  );
  const amount = (value: number) =>
    Math.abs(value).toLocaleString("en", { maximumSignificantDigits: 3, useGrouping: true });
  const { currency } = model.study.money;
  const perCent = (100 * annual.solarFraction).toFixed(1);
  const sentences = [
    `${who} reaches a solar fraction of ${perCent} % and costs ${amount(gap_per_year)} ${currency} a year ` +
      `${gap_per_year >= 0 ? "more" : "less"} than perfect foresight would.`,
  ];
  const unmet = [
    ...(annual.unmet_kWh > 1 ? [`${amount(annual.unmet_kWh)} kWh of heat`] : []),
    ...(annual.unmetCold_kWh > 1 ? [`${amount(annual.unmetCold_kWh)} kWh of cold`] : []),
    ...(annual.unmetWater_m3 > 0.1 ? [`${amount(annual.unmetWater_m3)} m³ of water`] : []),
  ];
  if (unmet.length > 0)
    sentences.push(`It leaves ${unmet.join(", ")} a year unmet; that costs nothing in the figure above.`);
  if (wasted_kWh > 1)
    sentences.push(`Boilers at their least load make ${amount(wasted_kWh)} kWh a year that nothing takes.`);
  return {
    annual,
    cold: coldYears(model, plan, baseline),
    networks: networkYears(model, plan),
    months: monthFigures(plan),
    levelised,
    money: moneyOf(model, plan, baseline, film),
    annualCost,
    gap_per_year,
    unmetCost: totals.unmetCost,
    programCost: totals.cost,
    wasted_kWh,
    left_kWh: totals.left_kWh.reduce((all, heat) => all + heat, 0),
    sentences,
  };
}
