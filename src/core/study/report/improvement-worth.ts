import { collectorYear } from "../../collector/collector-year.ts";
import { filmLife_years } from "../../collector/film-state.ts";
import { improvements } from "../../collector/improvements.ts";
import { capitalRecovery } from "../../economics/annuity.ts";
import { dot } from "../../series.ts";
import type { CollectorImprovement } from "../collector-figures.ts";
import type { CollectorMatch } from "../collector-matches.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Collector } from "../schema/study.ts";
import type { Duals } from "./unit-worth.ts";
import { withSizeColumns } from "./with-size-columns.ts";

/**
 * What one more kWh collected on each network in each hour would save, currency per kWh, not below 0: the
 * shadow price of the hour's limit "heat used ≤ heat collected", and where no field collects in an hour that of
 * the network's balance. Null unless the program that gave the sizes is that of the full year.
 */
export function collectedWorth_per_kWh(model: PlantModel, found: Duals | null): Float64Array[] | null {
  if (found === null || found.formulation.problem.blocks !== model.problem.blocks) return null;
  const { formulation, rowDual } = withSizeColumns(found);
  const { program, layout } = formulation;
  return layout.solar.map((columns, k) =>
    Float64Array.from(columns, (column, t) => {
      const balance = layout.rows.balance[k][t];
      if (column < 0) return Math.max(0, rowDual[balance]);
      for (let e = program.starts[column]; e < program.starts[column + 1]; e += 1) {
        const row = program.indices[e];
        if (program.rowName(row).startsWith("collected.")) return Math.max(0, -rowDual[row]);
      }
      return Math.max(0, rowDual[balance]);
    }),
  );
}

/**
 * What each small improvement of a collector would be worth on the network of a match: heat gained in the hours
 * at what a kWh collected saves in them, less electricity to run longer. First order, at today's sizes with
 * perfect foresight, each improvement alone: the least cost is convex in the heat collected, so this is the most
 * that a step can save at these sizes, and near it only where the step is small; dearest first.
 *
 * @param worth_per_kWh by hour, of the match's network (@see collectedWorth_per_kWh)
 */
export function improvementWorth(
  model: PlantModel,
  match: CollectorMatch,
  worth_per_kWh: Float64Array,
): CollectorImprovement[] {
  const { study, sun, weather } = model;
  const { collector, level, year, at } = match;
  const climate = { latitude_deg: study.site.latitude_deg, sun, weather };
  const rate = study.money.realDiscountRate;
  const price = model.prices.electricity.objective_per_kWh;
  const today = year.levels[at];
  const found = improvements(collector).map(({ changed, ofFilm, ...told }) => {
    const better = collectorYear(changed, climate, [level]).levels[0];
    const gain_kWh = better.useful_kWh_per_m2 - today.useful_kWh_per_m2;
    const worth =
      dot(worth_per_kWh, better.yield_kW_per_m2) -
      dot(worth_per_kWh, today.yield_kW_per_m2) -
      dot(price, better.parasitic_kW_per_m2) +
      dot(price, today.parasitic_kW_per_m2);
    const life_years = ofFilm ? filmLife_years(collector) : longestLife_years(collector);
    return {
      ...told,
      useful_kWh_per_m2: gain_kWh,
      worth_per_m2_year: worth,
      mayCost_per_m2: life_years > 0 ? worth / capitalRecovery(rate, life_years) : null,
      everyYears: life_years > 0 ? life_years : null,
    };
  });
  return found.sort((a, b) => b.worth_per_m2_year - a.worth_per_m2_year);
}

const longestLife_years = ({ parts }: Collector) =>
  parts.reduce((longest, { life_years }) => Math.max(longest, life_years), 0);
