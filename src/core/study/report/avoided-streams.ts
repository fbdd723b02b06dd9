import type { Plan } from "../../dispatch/read-plan.ts";
import type { AvoidedStream } from "../../economics/cash-flow.ts";
import { type PriceCourse, priceYears } from "../../economics/price-years.ts";
import { dot } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { PricePath } from "../schema/study.ts";
import { costsOf } from "./costs.ts";
import type { FilmYears } from "./film-years.ts";
import { firedHeat_kW } from "./fired-heat.ts";

/** What a plan avoids against today's plant, by what is paid for. */
export interface AvoidedStreams {
  /** Each backup's fuel, in the order of the study, then electricity. */
  readonly energy: readonly AvoidedStream[];
  readonly carbon: AvoidedStream;
}

/**
 * The money that new plant avoids each year, each price on its own course through the period.
 *
 * @param film what each year's films change; null for the film's mean state in every year
 * @param path other courses of some prices
 */
export function avoidedStreams(
  model: PlantModel,
  plan: Plan,
  baseline: Plan,
  film: FilmYears | null,
  path: readonly PricePath[] = [],
): AvoidedStreams {
  const { study, prices } = model;
  const { years } = study.money;
  const now = costsOf(model, baseline);
  const then = costsOf(model, plan);
  const course = (of: string, own: PriceCourse) =>
    priceYears(path.find((price) => price.of === of) ?? own, years);
  const stream = (
    amount_per_year: number,
    yearFactors: Float64Array,
    more: readonly number[] | undefined,
  ): AvoidedStream => ({
    amount_per_year,
    growth: 0,
    yearFactors,
    ...(more === undefined ? {} : { changeByYear: more.map((cost) => -cost) }),
  });
  return {
    energy: [
      ...prices.backups.map((backup, i) =>
        stream(
          dot(firedHeat_kW(model, baseline, i), backup.firstYear_per_kWh) -
            dot(firedHeat_kW(model, plan, i), backup.firstYear_per_kWh),
          course(backup.id, backup.course),
          film?.fuelCost[i],
        ),
      ),
      stream(
        now.electricityCost - then.electricityCost,
        course("electricity", study.electricity),
        film?.electricityCost,
      ),
    ],
    carbon: stream(
      (now.co2_kg - then.co2_kg) * prices.firstYearCarbon_per_kg,
      course("carbon", { escalation_per_year: study.money.carbonEscalation_per_year }),
      film?.co2_kg.map((co2_kg) => co2_kg * prices.firstYearCarbon_per_kg),
    ),
  };
}
