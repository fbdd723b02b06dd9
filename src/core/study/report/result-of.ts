import type { Plan } from "../../dispatch/read-plan.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Conflict, Proof, Replays, Result, TypicalDaysFigures, WholeModules } from "../result.ts";
import type { TruePrices } from "../true-prices.ts";
import { annualOf } from "./annual.ts";
import { coldYears } from "./cold-years.ts";
import { collectorFigures } from "./collector-years.ts";
import { costsOf } from "./costs.ts";
import type { FilmYears } from "./film-years.ts";
import { limitFigures } from "./limits.ts";
import { loadYears } from "./loads.ts";
import { matchRows } from "./match-rows.ts";
import { levelisedOf, moneyOf } from "./money.ts";
import { monthFigures } from "./months.ts";
import { networkYears } from "./networks.ts";
import { pricesOf } from "./prices.ts";
import { sizesOf } from "./sizes.ts";
import type { Duals } from "./unit-worth.ts";

/** What a sizing hands to the report; every plan covers the full year. */
export interface Findings {
  readonly plan: Plan;
  readonly baseline: Plan;
  readonly withoutCollectors: Plan;
  readonly duals: Duals | null;
  readonly conflicts: readonly Conflict[];
  readonly proof: Proof;
  readonly wholeModules: WholeModules | null;
  readonly truePrices: TruePrices | null;
  readonly replay: Replays | null;
  /** The years of the period with the film at its age; null where nothing ages or no replay was asked for. */
  readonly film: FilmYears | null;
  readonly typicalDays: TypicalDaysFigures | null;
  readonly remarks: readonly string[];
  readonly version: string;
}

/** Puts every figure of result.json together. */
export function resultOf(model: PlantModel, findings: Findings): Result {
  const { study } = model;
  const { plan, baseline, conflicts, proof } = findings;
  return {
    formatVersion: 1,
    program: { name: "noonkeep", version: findings.version },
    study: { title: study.title, currency: study.money.currency, years: study.money.years },
    status: conflicts.length > 0 ? "infeasible" : proof.status === "optimal" ? "optimal" : "stopped",
    conflicts,
    sizes: sizesOf(model, plan.sizes),
    annual: annualOf(model, plan, baseline),
    baseline: costsOf(model, baseline),
    withoutCollectors: costsOf(model, findings.withoutCollectors),
    networks: networkYears(model, plan),
    loads: loadYears(model, plan),
    cold: coldYears(model, plan, baseline),
    match: matchRows(model),
    collectors: collectorFigures(model, plan, {
      duals: conflicts.length > 0 ? null : findings.duals,
      film: findings.film,
    }),
    levelised: levelisedOf(model, plan, baseline),
    money: moneyOf(model, plan, baseline, findings.film),
    limits: limitFigures(model, plan, findings.duals),
    months: monthFigures(plan),
    marginal: plan.hours.networks.flatMap(({ id, marginal_per_kWh }) => {
      if (marginal_per_kWh.some(Number.isNaN)) return [];
      return [
        {
          network: id,
          mean_per_kWh: marginal_per_kWh.reduce((all, value) => all + value, 0) / marginal_per_kWh.length,
          least_per_kWh: marginal_per_kWh.reduce(
            (least, value) => Math.min(least, value),
            Number.POSITIVE_INFINITY,
          ),
          most_per_kWh: marginal_per_kWh.reduce(
            (most, value) => Math.max(most, value),
            Number.NEGATIVE_INFINITY,
          ),
        },
      ];
    }),
    prices: conflicts.length > 0 ? null : pricesOf(model, plan, proof.method, findings.duals),
    proof,
    wholeModules: findings.wholeModules,
    truePrices: findings.truePrices,
    replay: findings.replay,
    typicalDays: findings.typicalDays,
    findings: findings.remarks,
  };
}
