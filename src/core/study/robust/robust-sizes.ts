import { type DispatchCase, unlimited } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { type Formulation, formulate } from "../../dispatch/formulate.ts";
import type { LpSolver, SolveOptions } from "../../dispatch/program.ts";
import { type Plan, readSizes } from "../../dispatch/read-plan.ts";
import type { PlantModel } from "../plant-model.ts";
import { proofOf } from "../proof-of.ts";
import { annualOf } from "../report/annual.ts";
import { total } from "../report/costs.ts";
import { levelisedOf } from "../report/money.ts";
import { sizesOf } from "../report/sizes.ts";
import { dispatchAt, nothingNew, solved } from "../sizing/dispatch-at.ts";
import { planOfYear } from "./plan-of-year.ts";
import type { OwnSizes, RobustAnswer, RobustYear } from "./robust-answer.ts";
import { type RobustProgram, robustProgram } from "./robust-program.ts";
import { notWholeModules, robustSentences } from "./robust-sentences.ts";
import { lacksOf, shortfallsOfPlant, shortfallsOfYear } from "./shortfalls.ts";

/** The plant in one year as it may turn out. */
export interface PossibleYear {
  readonly id: string;
  readonly name: string;
  readonly probability: number;
  readonly model: PlantModel;
}

export interface RobustOptions {
  /** Of all full-year programs. */
  readonly solver: LpSolver;
  readonly version: string;
  readonly onProgress?: (doing: string, share: number) => void;
  readonly shouldStop?: () => boolean;
}

export interface RobustSizing {
  readonly answer: RobustAnswer;
  /** The program of all years, whose objective `answer.proof` gives. */
  readonly formulation: Formulation;
}

/**
 * Sizes in common for several possible years, each with a dispatch of its own, in one linear program, and
 * what knowing the year beforehand would be worth (docs/methods/robust-sizes.md).
 *
 * @param base the study itself, whose own optimum the common sizes are compared with
 * @param years the same plant in each possible year; probabilities above 0, together 1
 * @throws ModelError as joinYears; StoppedError
 */
export function robustSizes(
  base: PlantModel,
  years: readonly PossibleYear[],
  { solver, version, onProgress = () => {}, shouldStop }: RobustOptions,
): RobustSizing {
  const watched: SolveOptions = shouldStop === undefined ? {} : { shouldStop };
  const cases = years.map(({ model }) => model.problem);
  const probabilities = years.map(({ probability }) => probability);

  onProgress("The study's own year: finding sizes", 0);
  const own = ownSizesOf(base.problem, solver, watched);
  const baselines = years.map(({ name, model }, y) => {
    onProgress(`Today's plant in "${name}"`, 0.05 + (0.1 * y) / years.length);
    return dispatchAt(unlimited(model.problem), nothingNew(model.problem), solver, watched);
  });
  const found = robustProgram(cases, probabilities, {
    solver,
    own,
    watched,
    onProgress: (doing, share) => onProgress(doing, 0.15 + 0.8 * share),
  });

  onProgress("Reporting", 0.96);
  const { common } = found;
  const plans = years.map((_, y) => planOfYear(common.formulation, cases, y, common.primal));
  const annualCost = (y: number, plan: Plan) => levelisedOf(years[y].model, plan, baselines[y]).annualCost;
  const rows = years.map(({ id, name, probability, model }, y): RobustYear => {
    const annual = annualOf(model, plans[y], baselines[y]);
    const lacks = lacksOf(plans[y]);
    return {
      id,
      name,
      probability,
      annualCost: annualCost(y, plans[y]),
      annualCostIfKnown: annualCost(y, found.known[y].plan),
      sizesIfKnown: sizesOf(model, found.known[y].plan.sizes),
      solarFraction: annual.solarFraction,
      fuelCostAvoided: annual.fuelCostAvoided,
      unmet_kWh: lacks.heat_kWh,
      unmetCold_kWh: lacks.cold_kWh,
      unmetWater_m3: lacks.water_m3,
    };
  });
  const expect = (value: (year: RobustYear, y: number) => number) =>
    rows.reduce((all, row, y) => all + row.probability * value(row, y), 0);
  const conflicts = shortfalls(base, years, plans, common.plan);
  const heat_kWh = expect((_, y) => total(plans[y], "demand_kW"));
  const other_kWh = expect((_, y) => total(plans[y], "backup_kW") + total(plans[y], "unmet_kW"));
  const answer: Omit<RobustAnswer, "sentences"> = {
    formatVersion: 1,
    program: { name: "noonkeep", version },
    study: {
      title: base.study.title,
      currency: base.study.money.currency,
      years: base.study.money.years,
    },
    status: conflicts.length > 0 ? "infeasible" : "optimal",
    conflicts,
    sizes: sizesOf(years[0].model, common.plan.sizes),
    expected: {
      annualCost: expect((row) => row.annualCost),
      annualCostIfKnown: expect((row) => row.annualCostIfKnown),
      fuelCostAvoided: expect((row) => row.fuelCostAvoided),
      solarFraction: heat_kWh > 0 ? Math.max(0, 1 - other_kWh / heat_kWh) : 0,
    },
    valueOfKnowing: conflicts.length > 0 ? null : valueOfKnowing(found, probabilities),
    ownSizes: ownSizes(base, years, found, annualCost, conflicts.length > 0),
    years: rows,
    proof: proofOf("full-year", common.formulation, common.answer, common.primal, common.answer, common.plan),
    findings: notWholeModules(base, common.plan.sizes.fields_m2),
  };
  return { answer: { ...answer, sentences: robustSentences(answer) }, formulation: common.formulation };
}

/** Differences below this share of the cost are what solvers leave of zero. */
const noise = 1e-6;

/** Expected value of perfect information: Σ p · (cost at common sizes − cost if known), by the programs' objectives. */
function valueOfKnowing({ common, known }: RobustProgram, probabilities: readonly number[]): number {
  const ifKnown = known.reduce((all, { cost }, y) => all + probabilities[y] * cost, 0);
  return withoutNoise(common.cost - ifKnown, common.cost);
}

function withoutNoise(difference: number, cost: number): number {
  return Math.abs(difference) <= noise * (1 + Math.abs(cost)) ? 0 : difference;
}

function ownSizesOf(problem: DispatchCase, solver: LpSolver, watched: SolveOptions) {
  const formulation = formulate(problem);
  const answer = solved(solver, formulation, watched);
  return readSizes(formulation, cleanAnswer(formulation, answer.primal));
}

function ownSizes(
  base: PlantModel,
  years: readonly PossibleYear[],
  { common, atOwn }: RobustProgram,
  annualCost: (y: number, plan: Plan) => number,
  commonFails: boolean,
): OwnSizes {
  if (atOwn === null) throw new Error("own sizes were given to the program");
  const cases = years.map(({ model }) => model.problem);
  const plans = years.map((_, y) => planOfYear(common.formulation, cases, y, atOwn.primal));
  const missed = shortfalls(base, years, plans, atOwn.plan);
  return {
    sizes: sizesOf(base, atOwn.plan.sizes),
    expectedAnnualCost: plans.reduce((all, plan, y) => all + years[y].probability * annualCost(y, plan), 0),
    valueOfCommonSizes:
      commonFails || missed.length > 0 ? null : withoutNoise(atOwn.cost - common.cost, common.cost),
    shortfalls: missed,
  };
}

function shortfalls(
  base: PlantModel,
  years: readonly PossibleYear[],
  plans: readonly Plan[],
  whole: Plan,
): string[] {
  return [
    ...shortfallsOfPlant(whole, base.study.money.currency),
    ...plans.flatMap((plan, y) => shortfallsOfYear(years[y].name, plan, total(plan, "demand_kW"))),
  ];
}
