import type { NewSizes } from "../../dispatch/case.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import { levelisationFactor } from "../../economics/annuity.ts";
import { type AvoidedStream, amountIn, cashFlow } from "../../economics/cash-flow.ts";
import { moneyFigures } from "../../economics/figures.ts";
import { annualCostOf, type PartQuantity, partLine } from "../../economics/part-cost.ts";
import { dot, mean } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Levelised, MoneyFigures } from "../result.ts";
import type { Part } from "../schema/study.ts";
import { costsOf, electricityOf, total } from "./costs.ts";
import type { FilmYears } from "./film-years.ts";
import { firedHeat_kW } from "./fired-heat.ts";

interface Bought {
  readonly item: string;
  readonly unit: string;
  readonly quantity: number;
  readonly parts: readonly Part[];
  /** True for what makes or keeps solar heat: collectors and heat stores. */
  readonly isSolar: boolean;
}

function boughtPlant({ study, problem, fields }: PlantModel, sizes: NewSizes): Bought[] {
  const aperture = (collector: string) =>
    fields.reduce((all, field, f) => all + (field.collector.id === collector ? sizes.fields_m2[f] : 0), 0);
  const items: Bought[] = [
    ...study.collectors.map(({ id, name, parts }) => ({
      item: name,
      unit: "m²",
      quantity: aperture(id),
      parts,
      isSolar: true,
    })),
    ...study.stores.map(({ name, parts }, i) => ({
      item: name,
      unit: "kWh",
      quantity: sizes.stores_kWh[i],
      parts,
      isSolar: "network" in problem.stores[i].serves,
    })),
    ...study.stores.map(({ name, charging }, i) => ({
      item: `Charging of ${name}`,
      unit: "kW",
      quantity: sizes.chargers_kW[i],
      parts: charging?.parts ?? [],
      isSolar: "network" in problem.stores[i].serves,
    })),
    ...study.stepDowns.map(({ id, parts }, i) => ({
      item: `Step-down ${id}`,
      unit: "kW",
      quantity: sizes.stepDowns_kW[i],
      parts,
      isSolar: false,
    })),
    ...study.chillers.map(({ name, parts }, i) => ({
      item: name,
      unit: "kW cold",
      quantity: sizes.chillers_kW[i],
      parts,
      isSolar: false,
    })),
    ...study.backups.map(({ name, parts }, i) => ({
      item: name,
      unit: "kW",
      quantity: sizes.backups_kW[i],
      parts,
      isSolar: false,
    })),
  ];
  return items.filter(({ quantity }) => quantity > 1e-6);
}

const partsOf = (bought: readonly Bought[]): PartQuantity[] =>
  bought.flatMap(({ parts, quantity }) => parts.map((part) => ({ part, quantity })));

/** A stream that is less by what a year costs more. */
function lessBy(more: readonly number[] | undefined): { changeByYear?: number[] } {
  return more === undefined ? {} : { changeByYear: more.map((cost) => -cost) };
}

/**
 * Cash flow of the new plant against today's, and what follows from it.
 *
 * @param film what each year's films change; null for the film's mean state in every year
 */
export function moneyOf(model: PlantModel, plan: Plan, baseline: Plan, film: FilmYears | null): MoneyFigures {
  const { study, prices } = model;
  const { years, realDiscountRate } = study.money;
  const bought = boughtPlant(model, plan.sizes);
  const now = costsOf(model, baseline);
  const then = costsOf(model, plan);
  const avoided = [
    ...prices.backups.map((backup, i) => ({
      amount_per_year:
        dot(firedHeat_kW(model, baseline, i), backup.firstYear_per_kWh) -
        dot(firedHeat_kW(model, plan, i), backup.firstYear_per_kWh),
      growth: backup.escalation_per_year,
      ...lessBy(film?.fuelCost[i]),
    })),
    {
      amount_per_year: now.electricityCost - then.electricityCost,
      growth: study.electricity.escalation_per_year,
      ...lessBy(film?.electricityCost),
    },
  ];
  const carbon = {
    ...lessBy(film?.co2_kg.map((co2_kg) => co2_kg * prices.firstYearCarbon_per_kg)),
    amount_per_year: (now.co2_kg - then.co2_kg) * prices.firstYearCarbon_per_kg,
    growth: study.money.carbonEscalation_per_year,
  };
  const flow = cashFlow({
    bought: partsOf(bought),
    years,
    rate: realDiscountRate,
    avoided: [...avoided, carbon],
  });
  const overPeriod = (stream: AvoidedStream) => {
    let sum = 0;
    for (let year = 1; year <= years; year += 1) sum += amountIn(year, stream);
    return sum;
  };
  const usualYear = [...avoided, carbon].reduce((all, stream) => all + stream.amount_per_year, 0);
  return {
    ...moneyFigures(flow, realDiscountRate, usualYear),
    fuelCostAvoidedOverPeriod: avoided.reduce((all, stream) => all + overPeriod(stream), 0),
    parts: bought.flatMap(({ item, unit, quantity, parts }) =>
      parts.map((part) => partLine({ item, unit, part, quantity }, realDiscountRate)),
    ),
  };
}

/** Yearly cost over the period of analysis, capital recovery and levelised prices. */
export function levelisedOf(model: PlantModel, plan: Plan, baseline: Plan): Levelised {
  const { study, prices } = model;
  const { years, realDiscountRate } = study.money;
  const bought = boughtPlant(model, plan.sizes);
  const annualCapital = annualCapitalOf(model, plan.sizes);
  const fuel = (of: Plan) =>
    prices.backups.reduce(
      (all, backup, i) => all + dot(firedHeat_kW(model, of, i), backup.levelised_per_kWh),
      0,
    );
  const electricity = (of: Plan) => dot(electricityOf(model, of), prices.electricity.levelised_per_kWh);
  const carbon = (of: Plan) => costsOf(model, of).co2_kg * prices.carbon_per_kg;

  const solarCapital = annualCostOf(partsOf(bought.filter(({ isSolar }) => isSolar)), realDiscountRate);
  const parasitics = parasitic_kW(model, plan);
  const annualSolarPlant = solarCapital + dot(parasitics, prices.electricity.levelised_per_kWh);
  // Unmet batch heat is in no network's demand, so only the networks' own unmet heat comes off.
  const used_kWh = total(plan, "demand_kW") - total(plan, "backup_kW") - total(plan, "unmet_kW");
  return {
    solarHeat_per_kWh: used_kWh > 1 ? annualSolarPlant / used_kWh : null,
    backupHeat: prices.backups.map(({ id, firstYear_per_kWh, levelised_per_kWh }) => ({
      id,
      firstYear_per_kWh: mean(firstYear_per_kWh),
      levelised_per_kWh: mean(levelised_per_kWh),
    })),
    annualCost: annualCapital + fuel(plan) + electricity(plan) + carbon(plan),
    annualCostBaseline: fuel(baseline) + electricity(baseline) + carbon(baseline),
    annualCapital,
    annualSolarPlant,
    annualFuel: fuel(plan),
    annualElectricity: electricity(plan),
    annualCarbon:
      costsOf(model, plan).co2_kg *
      prices.firstYearCarbon_per_kg *
      levelisationFactor(years, study.money.carbonEscalation_per_year, realDiscountRate),
  };
}

/** Capital and upkeep of new plant, currency per year. */
export function annualCapitalOf(model: PlantModel, sizes: NewSizes): number {
  return annualCostOf(partsOf(boughtPlant(model, sizes)), model.study.money.realDiscountRate);
}

/** Electric power of running collectors, kW by hour. */
export function parasitic_kW({ problem }: PlantModel, plan: Plan): Float64Array {
  const sum = new Float64Array(problem.blocks);
  problem.fields.forEach((field, f) => {
    const aperture_m2 = plan.sizes.fields_m2[f] + field.existing_m2;
    for (let t = 0; t < sum.length; t += 1) sum[t] += aperture_m2 * field.parasitic_kW_per_m2[t];
  });
  return sum;
}
