import type { BackupCase, DispatchCase, SizeCase, StoreCase } from "../../core/dispatch/case.ts";
import { hoursPerYear } from "../../core/series.ts";
import { type MadeUpYear, madeUpYear } from "./made-up-year.ts";

/** What an instance of several networks is made of. */
export interface NetworkRecipe {
  readonly networks: number;
  readonly years?: number;
  readonly seed?: number;
  /** Sizes given instead of sought. */
  readonly fixedSizes?: boolean;
  /** Boilers, exchangers and the charging of stores have sizes and prices of their own. */
  readonly sizedPowers?: boolean;
  /** Share of each network's highest demand that its boiler can give. */
  readonly boilerShare?: number;
  readonly leastSolarFraction?: number;
  readonly land_m2?: number;
  readonly fuel_per_kWh?: number;
  /** Fuel heat whose price moves from hour to hour; constant if left out. */
  readonly hourlyPrices?: boolean;
  /** A share of the mean price taken off every hour's, so that some hours' prices fall below zero. */
  readonly priceFall?: number;
  readonly lossless?: boolean;
}

const infinity = Number.POSITIVE_INFINITY;

/**
 * The shape of the engine's first trial: networks from hot to cool, each with one collector type, one store
 * and one boiler that may charge it, heat stepped down from each to the next; sizes free unless said
 * otherwise. Prices are invented, for each year of operation.
 */
export function networkCase(recipe: NetworkRecipe): DispatchCase {
  const { networks: count, years = 1, seed = 1, fuel_per_kWh = 0.035 } = recipe;
  const all = Array.from({ length: years }, (_, n) => madeUpYear(count, seed + n));
  const blocks = years * hoursPerYear;
  const joined = (series: (year: MadeUpYear) => Float64Array) => {
    const whole = new Float64Array(blocks);
    all.forEach((year, n) => {
      whole.set(series(year), n * hoursPerYear);
    });
    return whole;
  };
  const ks = Array.from({ length: count }, (_, k) => k);
  const demands = ks.map((k) => joined((year) => year.demands_kW[k]!));
  const size = (annualCost_per_unit: number, fixed: number): SizeCase => ({
    existing: 0,
    least: recipe.fixedSizes === true ? fixed : 0,
    most: recipe.fixedSizes === true ? fixed : infinity,
    annualCost_per_unit,
    initialCost_per_unit: 10 * annualCost_per_unit,
  });
  const swing = joined((year) => year.priceSwing);
  const prices = (mean_per_kWh: number) =>
    recipe.hourlyPrices === true
      ? swing.map((share) => mean_per_kWh * (share - (recipe.priceFall ?? 0)))
      : new Float64Array(blocks).fill(mean_per_kWh);
  const unlimited: SizeCase = { ...size(0, 0), most: 0, existing: infinity };
  const boiler = (k: number): SizeCase => {
    if (recipe.sizedPowers === true) return size(6, 500);
    if (recipe.boilerShare === undefined) return unlimited;
    const highest_kW = demands[k]!.reduce((highest, value) => Math.max(highest, value), 0);
    return { ...unlimited, existing: recipe.boilerShare * highest_kW };
  };
  return {
    name: nameOf(recipe),
    blocks,
    step_h: 1,
    weight: new Float64Array(blocks).fill(1 / years),
    cycles: [{ start: 0, length: blocks }],
    networks: ks.map((k) => ({ id: `n${k}`, fixed_kW: demands[k]! })),
    collectors: ks.map((k) => ({
      id: `c${k}`,
      least_m2: 0,
      most_m2: infinity,
      annualCost_per_m2: 7,
      initialCost_per_m2: 52,
      groundCover: 0.4,
    })),
    fields: ks.map((k) => ({
      collector: k,
      network: k,
      existing_m2: 0,
      least_m2: recipe.fixedSizes === true ? 1500 : 0,
      most_m2: recipe.fixedSizes === true ? 1500 : infinity,
      yield_kW_per_m2: joined((year) => year.yields_kW_per_m2[k]!),
      parasitic_kW_per_m2: new Float64Array(blocks),
    })),
    stores: ks.map(
      (k): StoreCase => ({
        id: `s${k}`,
        serves: { network: k },
        keep_per_h: recipe.lossless === true ? 1 : 0.98 ** (1 / 24),
        chargeEfficiency: recipe.lossless === true ? 1 : 0.98,
        dischargeEfficiency: recipe.lossless === true ? 1 : 0.98,
        chargeLimit_kW: infinity,
        dischargeLimit_kW: infinity,
        charger: recipe.sizedPowers === true ? size(1.2, 500) : null,
        size: size([2.2, 1.8, 0.9, 0.7][k]!, 3000),
      }),
    ),
    stepDowns: ks.slice(1).map((k) => ({
      id: `x${k}`,
      from: k - 1,
      to: k,
      efficiency: 0.98,
      size: recipe.sizedPowers === true ? size(1.5, 300) : unlimited,
    })),
    cold: [],
    chillers: [],
    water: [],
    batches: [],
    backups: ks.map(
      (k): BackupCase => ({
        id: `b${k}`,
        network: k,
        heatPrice_per_kWh: prices(fuel_per_kWh * [1.1, 1, 0.95, 0.9][k]!),
        mayCharge: true,
        size: boiler(k),
      }),
    ),
    electricityPrice_per_kWh: new Float64Array(blocks).fill(0.12),
    limits: {
      land_m2: recipe.land_m2 ?? null,
      budget: null,
      leastSolarFraction: recipe.leastSolarFraction ?? null,
    },
    unmetPrice_per_kWh: 1000 * fuel_per_kWh,
    tieBreak_per_kWh: 1e-5 * fuel_per_kWh,
  };
}

const nameOf = ({ networks, years = 1 }: NetworkRecipe) => `networks-${networks}-years-${years}`;
