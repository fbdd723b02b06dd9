import { collectorYear } from "../../collector/collector-year.ts";
import { washingWater_L_per_m2 } from "../../collector/daily-cleanliness.ts";
import { collectorStagnation_C } from "../../collector/heat-loss.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import { largest, sum } from "../../series.ts";
import { clearestTurbidity, clearSkyYear } from "../../sun/clear-sky.ts";
import { leastField_m2, spilledShare } from "../collector-figures.ts";
import type { CollectorMatch } from "../collector-matches.ts";
import type { PlantModel } from "../plant-model.ts";
import type { CollectorFigures } from "../result.ts";
import { filmLives } from "./film-lives.ts";
import type { FilmYears } from "./film-years.ts";
import { collectedWorth_per_kWh, improvementWorth } from "./improvement-worth.ts";
import type { Duals } from "./unit-worth.ts";

/** Beam irradiance at which the standstill temperature is told. */
const standstillBeam_W_m2 = 1000;

/**
 * Where a square metre's light goes in a year, for every collector on every network that it may serve and is
 * hot enough for. What a network spills is shared by its fields in proportion to what they could give.
 */
export function collectorFigures(
  model: PlantModel,
  plan: Plan,
  { duals, film }: { readonly duals: Duals | null; readonly film: FilmYears | null },
): CollectorFigures[] {
  const worth_per_kWh = collectedWorth_per_kWh(model, duals);
  const area_m2 = fieldAreas_m2(model, plan);
  const hottest_C = largest(model.weather.ambient_C);
  const cloudless = cloudlessYears(model);
  return model.fields.map((match, f) => {
    const { collector, network, year, at } = match;
    const { useful_kWh_per_m2, runningHours, parasitic_kWh_per_m2, frost, losses } = year.levels[at];
    const collectable_kWh = model.fields.reduce(
      (all, other, g) =>
        other.network === network ? all + area_m2[g] * other.year.levels[other.at].useful_kWh_per_m2 : all,
      0,
    );
    const spill_kWh = sum(plan.hours.networks[model.study.networks.indexOf(network)].spill_kW);
    const share = spilledShare(spill_kWh, collectable_kWh);
    const isBuilt = area_m2[f] > 0;
    return {
      id: collector.id,
      network: network.id,
      beam_kWh_per_m2: year.dni_kWh_per_m2,
      diffuse_kWh_per_m2: year.diffuseOnAperture_kWh_per_m2,
      useful_kWh_per_m2,
      spilled_kWh_per_m2: isBuilt ? useful_kWh_per_m2 * share : 0,
      used_kWh_per_m2: isBuilt ? useful_kWh_per_m2 * (1 - share) : null,
      parasitic_kWh_per_m2,
      frost,
      washingWater_L_per_m2: washingWater_L_per_m2(collector),
      cloudless: cloudless(match),
      runningHours,
      peak_W_per_m2: 1000 * largest(year.levels[at].yield_kW_per_m2),
      stowedHours: year.stowedHours,
      stagnation_C: collectorStagnation_C(collector, standstillBeam_W_m2, hottest_C),
      losses,
      useful_kWh_per_m2_byYear: film?.useful_kWh_per_m2[f] ?? null,
      filmLives: area_m2[f] > leastField_m2 ? filmLives(model, match) : null,
      improvements:
        area_m2[f] > leastField_m2 && worth_per_kWh !== null
          ? improvementWorth(model, match, worth_per_kWh[model.study.networks.indexOf(network)])
          : null,
    };
  });
}

/** What a field of the model gives under an always clear sky, with the air and wind of the weather year. */
function cloudlessYears({ study, sun, weather, fields }: PlantModel) {
  if (fields.length === 0) return () => ({ beam_kWh_per_m2: 0, useful_kWh_per_m2: 0 });
  const clear = clearSkyYear(sun, weather, clearestTurbidity);
  const climate = { latitude_deg: study.site.latitude_deg, sun, weather: clear };
  const years = new Map(
    [...new Set(fields.map(({ collector }) => collector))].map((collector) => {
      const own = fields.filter((field) => field.collector === collector);
      const levels = own.map(({ level }) => level);
      return [collector, { own, year: collectorYear(collector, climate, levels) }];
    }),
  );
  return (match: CollectorMatch) => {
    const { own, year } = years.get(match.collector)!;
    return {
      beam_kWh_per_m2: year.dni_kWh_per_m2,
      useful_kWh_per_m2: year.levels[own.indexOf(match)]!.useful_kWh_per_m2,
    };
  };
}

/** Aperture of each field of the plan, new and existing. */
function fieldAreas_m2({ problem }: PlantModel, { sizes }: Plan): number[] {
  return problem.fields.map(({ existing_m2 }, f) => sizes.fields_m2[f] + existing_m2);
}

/** Water with which the fields of the plan are washed in a year. */
export function washingWater_m3(model: PlantModel, plan: Plan): number {
  const area_m2 = fieldAreas_m2(model, plan);
  return model.fields.reduce(
    (all, { collector }, f) => all + (area_m2[f] * washingWater_L_per_m2(collector)) / 1000,
    0,
  );
}
