import type { DispatchCase, SizeCase } from "../../src/core/dispatch/case.ts";
import { type RandomStream, randomStream } from "../../src/core/sun/random.ts";

/**
 * The same plant with other numbers: what is zero, infinite, one or constant stays so, which keeps the shape of
 * the program; everything else moves, costs up to threefold.
 */
export function variedPlant(problem: DispatchCase, seed: number): DispatchCase {
  const random = randomStream(seed);
  const times = (value: number, most: number) => value * most ** (2 * random.uniform() - 1);
  const cost = (value: number) => times(value, 3);
  const power = (value: number) => times(value, 1.3);
  const series = (values: Float64Array) => variedSeries(values, random);
  const times130 = (values: Float64Array) => {
    const factor = power(1);
    return values.map((value) => value * factor);
  };
  const share = (value: number) => (value === 1 ? 1 : 1 - (1 - value) * random.uniform());
  const size = (given: SizeCase): SizeCase => {
    const factor = power(1);
    const dearer = cost(1);
    return {
      existing: factor * given.existing,
      least: factor * given.least,
      most: factor * given.most,
      annualCost_per_unit: dearer * given.annualCost_per_unit,
      initialCost_per_unit: dearer * given.initialCost_per_unit,
    };
  };
  const sized = <T extends { readonly size: SizeCase }>(item: T): T => ({ ...item, size: size(item.size) });
  return {
    ...problem,
    networks: problem.networks.map((item) => ({ ...item, fixed_kW: series(item.fixed_kW) })),
    collectors: problem.collectors.map((item) => ({
      ...item,
      annualCost_per_m2: cost(item.annualCost_per_m2),
      initialCost_per_m2: cost(item.initialCost_per_m2),
    })),
    fields: problem.fields.map((item) => ({ ...item, yield_kW_per_m2: series(item.yield_kW_per_m2) })),
    stores: problem.stores.map((item) => ({
      ...sized(item),
      charger: item.charger === null ? null : size(item.charger),
      keep_per_h: share(item.keep_per_h),
      chargeEfficiency: share(item.chargeEfficiency),
      dischargeEfficiency: share(item.dischargeEfficiency),
      chargeLimit_kW: power(item.chargeLimit_kW),
      dischargeLimit_kW: power(item.dischargeLimit_kW),
    })),
    stepDowns: problem.stepDowns.map((item) => ({ ...sized(item), efficiency: share(item.efficiency) })),
    cold: problem.cold.map((item) => ({
      ...item,
      demand_kW: series(item.demand_kW),
      electricCop: times130(item.electricCop),
      electricLimit_kW: power(item.electricLimit_kW),
    })),
    chillers: problem.chillers.map((item) => ({ ...sized(item), cop: times130(item.cop) })),
    water: problem.water.map((item) => ({
      ...item,
      order_m3_h: series(item.order_m3_h),
      tank_m3: power(item.tank_m3),
    })),
    batches: problem.batches.map((item) => ({ ...item, heat_kWh: power(item.heat_kWh) })),
    backups: problem.backups.map((item) => ({
      ...sized(item),
      heatPrice_per_kWh: series(item.heatPrice_per_kWh),
    })),
    electricityPrice_per_kWh: series(problem.electricityPrice_per_kWh),
    limits: {
      ...problem.limits,
      land_m2: problem.limits.land_m2 === null ? null : cost(problem.limits.land_m2),
      budget: problem.limits.budget === null ? null : cost(problem.limits.budget),
    },
  };
}

/** The same plant in another year: only what goes by the hour moves. */
export function otherYear(problem: DispatchCase, seed: number): DispatchCase {
  const random = randomStream(seed);
  const series = (values: Float64Array) => variedSeries(values, random);
  return {
    ...problem,
    networks: problem.networks.map((item) => ({ ...item, fixed_kW: series(item.fixed_kW) })),
    fields: problem.fields.map((item) => ({ ...item, yield_kW_per_m2: series(item.yield_kW_per_m2) })),
    cold: problem.cold.map((item) => ({
      ...item,
      demand_kW: series(item.demand_kW),
      electricCop: series(item.electricCop),
    })),
    chillers: problem.chillers.map((item) => ({ ...item, cop: series(item.cop) })),
    water: problem.water.map((item) => ({
      ...item,
      order_m3_h: series(item.order_m3_h),
      heat_kWh_per_m3: series(item.heat_kWh_per_m3),
    })),
    backups: problem.backups.map((item) => ({ ...item, heatPrice_per_kWh: series(item.heatPrice_per_kWh) })),
    electricityPrice_per_kWh: series(problem.electricityPrice_per_kWh),
  };
}

/** A constant series stays constant. */
function variedSeries(values: Float64Array, random: RandomStream): Float64Array {
  const all = 1.6 ** (2 * random.uniform() - 1);
  const isConstant = values.every((value) => value === values[0]);
  return values.map((value) => value * all * (isConstant ? 1 : 0.8 + 0.4 * random.uniform()));
}
