import { collectorYear } from "../../collector/collector-year.ts";
import { filmStatesByMonth } from "../../collector/film-history.ts";
import { ages } from "../../collector/film-state.ts";
import type { DispatchCase, NewSizes } from "../../dispatch/case.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import { replaySimple } from "../../replay/replay-simple.ts";
import { dot } from "../../series.ts";
import { leastField_m2 } from "../collector-figures.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Costs } from "../result.ts";
import { nothingNew } from "../sizing/dispatch-at.ts";
import { costsOf, total } from "./costs.ts";
import { firedHeat_kW } from "./fired-heat.ts";

/** The years of the period with the film at its own age in each, against a year with the film's mean state. */
export interface FilmYears {
  /** Useful heat of each field by year, kWh/m²; null for fields without aperture or of collectors that do not age. */
  readonly useful_kWh_per_m2: readonly (readonly number[] | null)[];
  /** By how much each backup's fuel costs more than in the mean year, by year; first-year prices. */
  readonly fuelCost: readonly (readonly number[])[];
  readonly electricityCost: readonly number[];
  readonly co2_kg: readonly number[];
  /** By how much more solar heat is used than in the mean year, by year, of all collectors. */
  readonly solarUsed_kWh: readonly number[];
}

/** What one year differs in. */
interface YearChange {
  readonly useful_kWh_per_m2: readonly (number | null)[];
  readonly fuelCost: readonly number[];
  readonly electricityCost: number;
  readonly co2_kg: number;
  readonly solarUsed_kWh: number;
}

/**
 * Each year of the period run by the simple controller at given sizes, with every built collector's film at its
 * age in that year, against the same run with the film's mean state. Where collectors that age exist already,
 * today's plant ages too, so what its own runs differ by is taken off. Years whose films are alike are run once.
 * Null where nothing built ages.
 */
export function filmYears(model: PlantModel, sizes: NewSizes): FilmYears | null {
  const { study, problem, fields } = model;
  const { years } = study.money;
  const isBuilt = (f: number) => sizes.fields_m2[f] + problem.fields[f].existing_m2 > leastField_m2;
  const ageing = fields.map(({ collector }, f) => isBuilt(f) && ages(collector));
  if (!ageing.includes(true)) return null;
  const states = new Map(
    study.collectors.map((collector) => [collector.id, filmStatesByMonth(collector, years)] as const),
  );
  const agesToday = problem.fields.some((field, f) => ageing[f] && field.existing_m2 > 0);
  const asBuilt = costsAgainstMean(model, sizes);
  const today = agesToday ? costsAgainstMean(model, nothingNew(problem)) : null;
  const done = new Map<string, YearChange>();
  const list = Array.from({ length: years }, (_, year) => {
    const key = fields
      .map(({ collector }, f) => (ageing[f] ? states.get(collector.id)![year].join() : ""))
      .join(";");
    const known = done.get(key);
    if (known !== undefined) return known;
    const change = changeIn(year);
    done.set(key, change);
    return change;
  });
  return {
    useful_kWh_per_m2: fields.map((_, f) =>
      ageing[f] ? list.map((one) => one.useful_kWh_per_m2[f]!) : null,
    ),
    fuelCost: problem.backups.map((_, i) => list.map(({ fuelCost }) => fuelCost[i])),
    electricityCost: list.map(({ electricityCost }) => electricityCost),
    co2_kg: list.map(({ co2_kg }) => co2_kg),
    solarUsed_kWh: list.map(({ solarUsed_kWh }) => solarUsed_kWh),
  };

  function changeIn(year: number): YearChange {
    const levels = fields.map(({ collector, level }, f) => {
      if (!ageing[f]) return null;
      const climate = { latitude_deg: study.site.latitude_deg, sun: model.sun, weather: model.weather };
      return collectorYear(collector, climate, [level], { filmState: states.get(collector.id)![year] })
        .levels[0];
    });
    const aged = {
      ...problem,
      fields: problem.fields.map((field, f) => {
        const level = levels[f];
        if (level === null) return field;
        const { yield_kW_per_m2, parasitic_kW_per_m2 } = level;
        return { ...field, yield_kW_per_m2, parasitic_kW_per_m2 };
      }),
    };
    const more = asBuilt(aged);
    const moreToday = today?.(aged);
    return {
      useful_kWh_per_m2: levels.map((level) => level?.useful_kWh_per_m2 ?? null),
      fuelCost: more.fuelCost.map((cost, i) => cost - (moreToday?.fuelCost[i] ?? 0)),
      electricityCost: more.electricityCost - (moreToday?.electricityCost ?? 0),
      co2_kg: more.co2_kg - (moreToday?.co2_kg ?? 0),
      solarUsed_kWh: more.solarUsed_kWh,
    };
  }
}

const used = ({ heatDemand_kWh, backup_kWh }: Costs, plan: Plan) =>
  heatDemand_kWh - backup_kWh - total(plan, "unmet_kW");

/** What a plant of these sizes costs more with films of some age than with films in their mean state. */
function costsAgainstMean(
  model: PlantModel,
  sizes: NewSizes,
): (aged: DispatchCase) => Omit<YearChange, "useful_kWh_per_m2"> {
  const meanPlan = replaySimple(model.problem, sizes, model.rules);
  const mean = costsOf(model, meanPlan);
  return (aged) => {
    const plan = replaySimple(aged, sizes, model.rules);
    const costs = costsOf(model, plan);
    return {
      fuelCost: model.prices.backups.map(
        (backup, i) =>
          dot(firedHeat_kW(model, plan, i), backup.firstYear_per_kWh) -
          dot(firedHeat_kW(model, meanPlan, i), backup.firstYear_per_kWh),
      ),
      electricityCost: costs.electricityCost - mean.electricityCost,
      co2_kg: costs.co2_kg - mean.co2_kg,
      solarUsed_kWh: used(costs, plan) - used(mean, meanPlan),
    };
  };
}
