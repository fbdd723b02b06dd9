import type { NewSizes } from "../../dispatch/case.ts";
import type { Plan } from "../../dispatch/read-plan.ts";
import { type AvoidedStream, amountIn, cashFlow } from "../../economics/cash-flow.ts";
import { moneyFigures } from "../../economics/figures.ts";
import { annualCostOf, partLine } from "../../economics/part-cost.ts";
import { levelOfCourse } from "../../economics/price-years.ts";
import { dot, mean } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { Levelised, MoneyFigures } from "../result.ts";
import { type AvoidedStreams, avoidedStreams } from "./avoided-streams.ts";
import { boughtPlant, partsOf } from "./bought-plant.ts";
import { costsOf, electricityOf } from "./costs.ts";
import type { FilmYears } from "./film-years.ts";
import { firedHeat_kW } from "./fired-heat.ts";
import { contractOf, financeOf, solarUsed_kWh } from "./owner-money.ts";
import { parasitic_kW } from "./parasitic-power.ts";

/**
 * Cash flow of the new plant against today's, and what follows from it.
 *
 * @param film what each year's films change; null for the film's mean state in every year
 */
export function moneyOf(model: PlantModel, plan: Plan, baseline: Plan, film: FilmYears | null): MoneyFigures {
  const { study } = model;
  const { years, realDiscountRate, pricePaths = [] } = study.money;
  const bought = boughtPlant(model, plan.sizes);
  const flowOf = (streams: AvoidedStreams) => {
    const avoided = [...streams.energy, streams.carbon];
    const flow = cashFlow({ bought: partsOf(bought), years, rate: realDiscountRate, avoided });
    const usualYear = avoided.reduce((all, { amount_per_year }) => all + amount_per_year, 0);
    return {
      ...moneyFigures(flow, realDiscountRate, usualYear),
      fuelCostAvoidedOverPeriod: streams.energy.reduce((all, stream) => all + overPeriod(stream, years), 0),
    };
  };
  const streams = avoidedStreams(model, plan, baseline, film);
  const own = flowOf(streams);
  return {
    ...own,
    finance: financeOf(model, own.cashFlow, bought),
    contract: contractOf(model, plan, film, own.cashFlow, bought),
    parts: bought.flatMap(({ item, unit, quantity, parts }) =>
      parts.map((part) => partLine({ item, unit, part, quantity }, realDiscountRate)),
    ),
    pricePaths: [...new Set(pricePaths.map(({ name }) => name))].map((name) => {
      const path = pricePaths.filter((price) => price.name === name);
      const { cashFlow: _, ...figures } = flowOf(avoidedStreams(model, plan, baseline, film, path));
      return { name, ...figures };
    }),
  };
}

function overPeriod(stream: AvoidedStream, years: number): number {
  let sum = 0;
  for (let year = 1; year <= years; year += 1) sum += amountIn(year, stream);
  return sum;
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

  const solar = bought.filter(({ isSolar }) => isSolar);
  const solarCapital = annualCostOf(partsOf(solar), realDiscountRate);
  const parasitics = dot(parasitic_kW(model, plan), prices.electricity.levelised_per_kWh);
  const annualSolarPlant = solarCapital + parasitics;
  // Unmet batch heat is in no network's demand, so only the networks' own unmet heat comes off.
  const used_kWh = solarUsed_kWh(plan);
  return {
    solarHeat_per_kWh: used_kWh > 1 ? annualSolarPlant / used_kWh : null,
    solarHeatParts:
      used_kWh > 1
        ? [
            ...solar.flatMap(({ item, unit, quantity, parts }) =>
              parts.map((part) => ({
                item,
                part: part.name,
                cost_per_kWh:
                  partLine({ item, unit, quantity, part }, realDiscountRate).annualCost / used_kWh,
              })),
            ),
            { item: "All collectors", part: "Electricity", cost_per_kWh: parasitics / used_kWh },
          ]
        : [],
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
      levelOfCourse({ escalation_per_year: study.money.carbonEscalation_per_year }, years, realDiscountRate),
  };
}

/** Capital and upkeep of new plant, currency per year. */
export function annualCapitalOf(model: PlantModel, sizes: NewSizes): number {
  return annualCostOf(partsOf(boughtPlant(model, sizes)), model.study.money.realDiscountRate);
}
