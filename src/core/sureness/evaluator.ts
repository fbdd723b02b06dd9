import { scaleLoad } from "../demand/scale-load.ts";
import type { Plan } from "../dispatch/read-plan.ts";
import { replaySimple } from "../replay/replay-simple.ts";
import { type PlantModel, plantModel, type StudyHours } from "../study/plant-model.ts";
import { plantPrices } from "../study/plant-prices.ts";
import { costsOf } from "../study/report/costs.ts";
import { levelisedOf, moneyOf } from "../study/report/money.ts";
import { newSizesOf } from "../study/report/new-sizes.ts";
import { solarUsed_kWh } from "../study/report/owner-money.ts";
import type { Result, Sizes } from "../study/result.ts";
import type { Study } from "../study/schema/study.ts";
import { nothingNew } from "../study/sizing/dispatch-at.ts";
import type { UncertainInput } from "./uncertain-inputs.ts";
import { type Variation, variedStudy } from "./varied-study.ts";

/** What a plant of given sizes comes to; first-year prices but for npv, annualCost and solarHeat_per_kWh. */
export interface SurenessFigures {
  readonly fuelCostAvoided: number;
  readonly npv: number;
  readonly annualCost: number;
  /** Null where no solar heat is used. */
  readonly solarHeat_per_kWh: number | null;
  readonly solarFraction: number;
  readonly simplePayback_years: number | null;
}

/** Figures at a variation, in one of the years that were given; the first where left out. */
export type Evaluator = (variation: Variation, year?: number) => SurenessFigures;

/** Inputs that change what the sun gives or the works want, so that the collectors' year is made anew. */
const physical: readonly UncertainInput[] = ["sunshine", "optics", "heat-loss", "demand", "film-life"];

/**
 * Figures of a plant of fixed sizes under variations of its study, run by the simple controller, and today's plant
 * likewise. Its fuel is scaled by what the answer's own, run with foresight, burns of it at the study's values.
 * Films are in their mean state in every year, so that the net present value may lie a little off the promise's,
 * which has each year's own. Collectors that are not built are left out; limits bind nothing.
 *
 * @param years the study's own hours first, then those of other weather years with the loads that follow it
 */
export function evaluator(
  years: readonly StudyHours[],
  { sizes, baseline }: Pick<Result, "sizes" | "baseline">,
): Evaluator {
  const own = years.map((hours) => ({ ...hours, study: builtOnly(hours.study, sizes) }));
  const models = own.map(() => null as PlantModel | null);
  let scale = 0;
  const todayScale = () => {
    if (scale === 0) {
      models[0] ??= plantModel(own[0]!);
      const { fuelCost } = costsOf(models[0], todayOf(models[0]));
      scale = fuelCost > 0 && baseline.fuelCost > 0 ? baseline.fuelCost / fuelCost : 1;
    }
    return scale;
  };
  return (variation, year = 0) => {
    const hours = own[year]!;
    const isPhysical = physical.some((input) => variation[input] !== undefined);
    if (isPhysical) return figuresOf(plantModel(variedHours(hours, variation)), sizes, todayScale());
    models[year] ??= plantModel(hours);
    return figuresOf(repricedBy(models[year], hours, variation), sizes, todayScale());
  };
}

/** A study with what was built and nothing that only costs time. */
function builtOnly(study: Study, { collectors }: Sizes): Study {
  const { tax: _t, loan: _l, contract: _c, pricePaths: _p, ...money } = study.money;
  const isBuilt = (id: string) => collectors.some((one) => one.id === id && one.aperture_m2 > 0);
  return {
    ...study,
    money,
    limits: {},
    collectors: study.collectors.filter(({ id }) => isBuilt(id)),
  };
}

const times = (series: Float64Array, factor: number | undefined) =>
  factor === undefined || factor === 1 ? series : series.map((value) => value * factor);

/** Hours of a study with everything that a variation changes. */
export function variedHours(hours: StudyHours, variation: Variation): StudyHours {
  const { sunshine, demand = 1 } = variation;
  const { weather } = hours;
  return {
    study: variedStudy(hours.study, variation),
    weather: {
      ...weather,
      ghi_W_m2: times(weather.ghi_W_m2, sunshine),
      dni_W_m2: times(weather.dni_W_m2, sunshine),
      dhi_W_m2: times(weather.dhi_W_m2, sunshine),
    },
    loads: hours.loads.map((load) => scaleLoad(load, demand)),
    electricityPrice_per_kWh: times(hours.electricityPrice_per_kWh, variation["electricity-price"]),
    fuelPrices_per_kWh: hours.fuelPrices_per_kWh.map((prices) => times(prices, variation["fuel-price"])),
  };
}

/** The same sun, collectors and demand at other prices; the controller's order follows them. */
function repricedBy(model: PlantModel, hours: StudyHours, variation: Variation): PlantModel {
  const study = variedStudy(hours.study, variation);
  const prices = plantPrices(
    study,
    times(hours.electricityPrice_per_kWh, variation["electricity-price"]),
    hours.fuelPrices_per_kWh.map((fuel) => times(fuel, variation["fuel-price"])),
    model.prices.backups.map(({ heat_kWh_per_kWhFuel }) => heat_kWh_per_kWhFuel),
  );
  const { problem } = model;
  return {
    ...model,
    study,
    prices,
    problem: {
      ...problem,
      backups: problem.backups.map((backup, i) => ({
        ...backup,
        heatPrice_per_kWh: prices.backups[i]!.objective_per_kWh,
      })),
      electricityPrice_per_kWh: prices.electricity.objective_per_kWh,
      unmetPrice_per_kWh: prices.unmet_per_kWh,
    },
  };
}

/** Today's plant by the simple controller. */
function todayOf({ problem, rules }: PlantModel): Plan {
  return replaySimple(problem, nothingNew(problem), rules);
}

function figuresOf(model: PlantModel, built: Sizes, todayScale: number): SurenessFigures {
  const { problem, rules } = model;
  const plan = replaySimple(problem, newSizesOf(model, built), rules);
  const byController = todayOf(model);
  const today = {
    ...byController,
    backup_kW: byController.backup_kW.map((heat) => times(heat, todayScale)),
  };
  const now = costsOf(model, today);
  const then = costsOf(model, plan);
  const { npv, simplePayback_years } = moneyOf(model, plan, today, null);
  const { annualCost, solarHeat_per_kWh } = levelisedOf(model, plan, today);
  return {
    fuelCostAvoided: now.fuelCost + now.electricityCost - then.fuelCost - then.electricityCost,
    npv,
    annualCost,
    solarHeat_per_kWh,
    solarFraction: then.heatDemand_kWh > 0 ? Math.max(0, solarUsed_kWh(plan) / then.heatDemand_kWh) : 0,
    simplePayback_years,
  };
}
