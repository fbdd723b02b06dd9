import type { Plan } from "../../dispatch/read-plan.ts";
import { type FinanceFigures, financeFigures } from "../../economics/finance-figures.ts";
import { type ContractFigures, heatContract } from "../../economics/heat-contract.ts";
import type { OwnerFlow, OwnerTerms } from "../../economics/owner-flow.ts";
import { initialCapitalOf } from "../../economics/part-cost.ts";
import { priceYears } from "../../economics/price-years.ts";
import { dot } from "../../series.ts";
import type { PlantModel } from "../plant-model.ts";
import type { CashFlowYear } from "../result.ts";
import { type Bought, partsOf } from "./bought-plant.ts";
import { total } from "./costs.ts";
import type { FilmYears } from "./film-years.ts";
import { parasitic_kW } from "./parasitic-power.ts";

/** Finance of the plant in its owner's hands, after tax and loan; null where the study names none of tax, loan and inflation. */
export function financeOf(
  { study }: PlantModel,
  flow: readonly CashFlowYear[],
  bought: readonly Bought[],
): FinanceFigures | null {
  const { tax, loan, inflation_per_year, realDiscountRate } = study.money;
  if (tax === undefined && loan === undefined && inflation_per_year === undefined) return null;
  const owner = ownerFlow(flow, bought, ({ avoided, upkeep }) => avoided - upkeep);
  return financeFigures(owner, ownerTerms(study.money), realDiscountRate);
}

/**
 * Prices at which a seller keeps the plant and sells its solar heat; null where the study has no contract. The
 * seller pays for upkeep, replacements and the collectors' electricity, the client for fuel and all other electricity.
 */
export function contractOf(
  model: PlantModel,
  plan: Plan,
  film: FilmYears | null,
  flow: readonly CashFlowYear[],
  bought: readonly Bought[],
): ContractFigures | null {
  const { study, prices } = model;
  const { contract, realDiscountRate, inflation_per_year = 0, years } = study.money;
  if (contract === undefined) return null;
  const electricity = dot(parasitic_kW(model, plan), prices.electricity.firstYear_per_kWh);
  const running = priceYears(study.electricity, years).map((factor) => factor * electricity);
  const used_kWh = solarUsed_kWh(plan);
  return heatContract({
    seller: ownerFlow(flow, bought, ({ upkeep, year }) => 0 - upkeep - running[year - 1]!),
    terms: ownerTerms(study.money),
    wantedReturn: contract.wantedReturn_per_year,
    sellerShare: contract.sellerShare,
    heat_kWh: Array.from({ length: years }, (_, t) => Math.max(0, used_kWh + (film?.solarUsed_kWh[t] ?? 0))),
    index: indexOf(model, inflation_per_year),
    clientSaves: flow.slice(1).map(({ avoided, year }) => avoided + running[year - 1]!),
    clientRate: realDiscountRate,
  });
}

/** Heat of the sun that was used, kWh a year: demand less backup and what is unmet. */
export function solarUsed_kWh(plan: Plan): number {
  return total(plan, "demand_kW") - total(plan, "backup_kW") - total(plan, "unmet_kW");
}

/** Real price of heat of each year per price of the first, as the contract says. */
function indexOf({ study }: PlantModel, inflation: number): Float64Array {
  const { contract, years } = study.money;
  if (contract?.index === "yearly-rate") {
    const rise = (1 + (contract.index_per_year ?? 0)) / (1 + inflation) - 1;
    return priceYears({ escalation_per_year: rise }, years);
  }
  const fuel = study.backups.find(({ id }) => id === contract?.indexFuel)?.fuel;
  if (contract?.index === "fuel-price" && fuel !== undefined) return priceYears(fuel, years);
  return new Float64Array(years).fill(1);
}

function ownerTerms({ tax, loan, inflation_per_year }: PlantModel["study"]["money"]): OwnerTerms {
  return { inflation: inflation_per_year ?? 0, tax: tax ?? null, loan: loan ?? null };
}

function ownerFlow(
  flow: readonly CashFlowYear[],
  bought: readonly Bought[],
  operating: (year: CashFlowYear) => number,
): OwnerFlow {
  const years = flow.slice(1);
  const land = bought.map((one) => ({
    ...one,
    parts: one.parts.filter(({ life_years }) => life_years === Number.POSITIVE_INFINITY),
  }));
  return {
    capital: flow[0]!.capital,
    land: initialCapitalOf(partsOf(land)),
    operating: years.map(operating),
    replacements: years.map(({ replacements }) => replacements),
    credits: years.map(({ credits = 0 }) => credits),
    residual: years.at(-1)!.residual,
  };
}
