import fc from "fast-check";
import type { DispatchCase, SizeCase, StoreCase } from "../../../src/core/dispatch/case.ts";
import { sometimesNone, swinging } from "../../support/hourly-cop.ts";

/** What a random dispatch problem is made of; the series follow from the seed. */
export interface Recipe {
  readonly seed: number;
  readonly days: number;
  /** Cycles: the whole span, or a day each with its own weight. */
  readonly daily: boolean;
  readonly networks: number;
  readonly collectors: number;
  readonly stores: boolean;
  readonly losses: boolean;
  readonly stepDowns: boolean;
  readonly cold: boolean;
  readonly coldStore: boolean;
  readonly water: boolean;
  readonly batches: boolean;
  readonly boiler: "unlimited" | "fixed" | "sized" | "two";
  readonly mayCharge: boolean;
  readonly powerLimits: boolean;
  readonly sizes: "free" | "bounded" | "fixed";
  readonly land: boolean;
  readonly budget: boolean;
  readonly collectorBounds: boolean;
  readonly leastSolarFraction: number | null;
  readonly fuel_per_kWh: number;
}

const flag = fc.boolean();

export const recipes: fc.Arbitrary<Recipe> = fc.record({
  seed: fc.integer({ min: 1, max: 1_000_000 }),
  days: fc.integer({ min: 1, max: 4 }),
  daily: flag,
  networks: fc.integer({ min: 1, max: 3 }),
  collectors: fc.integer({ min: 1, max: 3 }),
  stores: flag,
  losses: flag,
  stepDowns: flag,
  cold: flag,
  coldStore: flag,
  water: flag,
  batches: flag,
  boiler: fc.constantFrom("unlimited", "fixed", "sized", "two"),
  mayCharge: flag,
  powerLimits: flag,
  sizes: fc.constantFrom("free", "bounded", "fixed"),
  land: flag,
  budget: flag,
  collectorBounds: flag,
  leastSolarFraction: fc.constantFrom(null, null, 0.3, 0.7, 0.95),
  fuel_per_kWh: fc.constantFrom(0.01, 0.03, 0.06, 0.15),
});

/** A small linear congruential generator: the same seed gives the same case everywhere. */
function generator(seed: number): () => number {
  let state = seed % 4294967296;
  return () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
}

/** Builds the dispatch problem of a recipe: costs are those of the cycle's length. */
export function caseOf(recipe: Recipe): DispatchCase {
  const random = generator(recipe.seed);
  const blocks = recipe.days * 24;
  const infinity = Number.POSITIVE_INFINITY;
  const clear = Array.from({ length: recipe.days }, () => Math.min(1, 0.2 + 0.9 * random()));
  const sun = Float64Array.from({ length: blocks }, (_, t) => {
    const height = Math.sin((Math.PI * ((t % 24) + 0.5 - 6)) / 12);
    return height > 0 ? height * clear[Math.floor(t / 24)] * (0.8 + 0.2 * random()) : 0;
  });
  const demand = (base: number, peak: number) =>
    Float64Array.from({ length: blocks }, (_, t) => {
      const works = t % 24 >= 7 && t % 24 < 19;
      return (base + (works ? peak : 0)) * (0.8 + 0.4 * random());
    });
  const weight = Float64Array.from({ length: blocks }, (_, t) =>
    recipe.daily ? 1 + (Math.floor(t / 24) % 3) * 10 : 1,
  );
  const standsFor = weight.reduce((sum, value) => sum + value, 0) / 8760;
  const size = (annual: number, initial: number, bound: number): SizeCase => ({
    existing: recipe.sizes === "bounded" ? 0.1 * bound : 0,
    least: recipe.sizes === "fixed" ? 0.6 * bound : recipe.sizes === "bounded" ? 0.05 * bound : 0,
    most: recipe.sizes === "fixed" ? 0.6 * bound : recipe.sizes === "bounded" ? 0.8 * bound : infinity,
    annualCost_per_unit: annual * standsFor,
    initialCost_per_unit: initial,
  });
  const ks = Array.from({ length: recipe.networks }, (_, k) => k);
  const networks = ks.map((k) => ({ id: `n${k}`, fixed_kW: demand(100 * k, 300 + 200 * random()) }));
  const collectors = Array.from({ length: recipe.collectors }, (_, c) => ({
    id: `c${c}`,
    least_m2: recipe.collectorBounds && recipe.sizes !== "fixed" && c === 0 ? 100 : 0,
    most_m2: recipe.collectorBounds && recipe.sizes !== "fixed" ? 1500 : infinity,
    annualCost_per_m2: (4 + 10 * random()) * standsFor,
    initialCost_per_m2: 40 + 100 * random(),
    groundCover: 0.4,
  }));
  const fields = collectors.flatMap((_, collector) =>
    networks.map((_, network) => {
      const [gain, loss] = [0.5 + 0.2 * random(), 0.05 + 0.1 * random()];
      const bounds = size(0, 0, 1000);
      return {
        collector,
        network,
        existing_m2: bounds.existing,
        least_m2: recipe.sizes === "fixed" ? bounds.least : 0,
        most_m2: bounds.most,
        yield_kW_per_m2: sun.map((value) => Math.max(0, gain * value - loss)),
        parasitic_kW_per_m2: sun.map((value) => (value > 0.1 ? 0.002 : 0.0005)),
      };
    }),
  );
  const store = (id: string, serves: StoreCase["serves"], cost: number): StoreCase => ({
    id,
    serves,
    keep_per_h: recipe.losses ? 0.98 ** (1 / 24) : 1,
    chargeEfficiency: recipe.losses ? 0.97 : 1,
    dischargeEfficiency: recipe.losses ? 0.98 : 1,
    chargeLimit_kW: recipe.powerLimits ? 400 : infinity,
    dischargeLimit_kW: recipe.powerLimits ? 250 : infinity,
    charger: null,
    size: size(cost, 10 * cost, 3000),
  });
  const price = (constant: number) => new Float64Array(blocks).fill(constant);
  const boiler = (existing: number): SizeCase => ({ ...size(0, 0, 0), existing });
  return {
    name: "random",
    blocks,
    step_h: 1,
    weight,
    cycles: recipe.daily
      ? Array.from({ length: recipe.days }, (_, d) => ({ start: 24 * d, length: 24 }))
      : [{ start: 0, length: blocks }],
    networks,
    collectors,
    fields,
    stores: [
      ...(recipe.stores ? networks.map((_, network) => store(`s${network}`, { network }, 1 + random())) : []),
      ...(recipe.cold && recipe.coldStore ? [store("ice", { cold: 0 }, 1.5)] : []),
    ],
    stepDowns: recipe.stepDowns
      ? ks
          .slice(1)
          .map((k) => ({ id: `x${k}`, from: k - 1, to: k, efficiency: 0.98, size: size(1.5, 15, 400) }))
      : [],
    cold: recipe.cold
      ? [
          {
            id: "cold",
            demand_kW: demand(50, 150),
            electricCop: recipe.seed % 4 === 3 ? swinging(blocks, 3) : new Float64Array(blocks).fill(3),
            electricLimit_kW: recipe.seed % 2 ? 120 : infinity,
          },
        ]
      : [],
    chillers: recipe.cold
      ? [
          {
            id: "absorber",
            cold: 0,
            network: recipe.networks - 1,
            cop: recipe.seed % 4 > 1 ? swinging(blocks, 0.7) : new Float64Array(blocks).fill(0.7),
            capacityFactor: recipe.seed % 4 > 1 ? sometimesNone(blocks) : new Float64Array(blocks).fill(1),
            electricity_kWh_per_kWh: 0.03,
            size: size(20, 200, 150),
          },
        ]
      : [],
    water: recipe.water
      ? [
          {
            id: "still",
            network: recipe.networks - 1,
            heat_kWh_per_m3: Float64Array.from({ length: blocks }, (_, t) => 70 + 10 * Math.sin(t)),
            electricity_kWh_per_m3: 2,
            order_m3_h: new Float64Array(blocks).fill(3),
            capacity_m3_h: recipe.seed % 3 === 0 ? 2.9 : 6,
            tank_m3: 30,
          },
        ]
      : [],
    batches: recipe.batches
      ? [
          {
            id: "kiln",
            network: 0,
            power_kW: 150,
            heat_kWh: recipe.seed % 5 === 0 ? 2000 : 900,
            windows: Array.from({ length: recipe.days }, (_, d) =>
              Int32Array.from({ length: 10 }, (_, n) =>
                recipe.daily ? 24 * d + ((18 + n) % 24) : (24 * d + 18 + n) % blocks,
              ),
            ),
          },
        ]
      : [],
    backups: ks.flatMap((k) => {
      const one = { network: k, heatPrice_per_kWh: price(recipe.fuel_per_kWh), mayCharge: recipe.mayCharge };
      if (recipe.boiler === "unlimited") return [{ ...one, id: `b${k}`, size: boiler(infinity) }];
      if (recipe.boiler === "fixed") return [{ ...one, id: `b${k}`, size: boiler(250) }];
      const sized = { ...one, id: `b${k}`, size: { ...size(8, 80, 300), existing: 100, most: infinity } };
      if (recipe.boiler === "sized") return [sized];
      return [
        sized,
        { ...one, id: `d${k}`, heatPrice_per_kWh: price(1.5 * recipe.fuel_per_kWh), size: boiler(200) },
      ];
    }),
    electricityPrice_per_kWh: Float64Array.from({ length: blocks }, (_, t) => (t % 24 > 16 ? 0.19 : 0.12)),
    limits: {
      land_m2: recipe.land ? 3000 : null,
      budget: recipe.budget ? 90_000 : null,
      leastSolarFraction: recipe.leastSolarFraction,
    },
    unmetPrice_per_kWh: 1000 * recipe.fuel_per_kWh,
    tieBreak_per_kWh: 1e-5 * recipe.fuel_per_kWh,
  };
}
