import type { DispatchCase, SizeCase } from "../../src/core/dispatch/case.ts";

/** The case with the size of every store, charger, step-down, chiller and backup changed. */
export function mapSizes(problem: DispatchCase, change: (size: SizeCase) => SizeCase): DispatchCase {
  const each = <T extends { readonly size: SizeCase }>(items: readonly T[]) =>
    items.map((item) => ({ ...item, size: change(item.size) }));
  return {
    ...problem,
    stores: each(problem.stores).map((item) => ({
      ...item,
      charger: item.charger === null ? null : change(item.charger),
    })),
    stepDowns: each(problem.stepDowns),
    chillers: each(problem.chillers),
    backups: each(problem.backups),
  };
}

/** Every price, cost and penalty times a factor; a budget goes with the prices that it pays. */
export function scalePrices(problem: DispatchCase, factor: number): DispatchCase {
  const sized = mapSizes(problem, (size) => ({
    ...size,
    annualCost_per_unit: factor * size.annualCost_per_unit,
    initialCost_per_unit: factor * size.initialCost_per_unit,
  }));
  const { budget } = problem.limits;
  return {
    ...scaleFuel(sized, factor),
    collectors: sized.collectors.map((item) => ({
      ...item,
      annualCost_per_m2: factor * item.annualCost_per_m2,
      initialCost_per_m2: factor * item.initialCost_per_m2,
    })),
    electricityPrice_per_kWh: sized.electricityPrice_per_kWh.map((price) => factor * price),
    unmetPrice_per_kWh: factor * sized.unmetPrice_per_kWh,
    tieBreak_per_kWh: factor * sized.tieBreak_per_kWh,
    limits: { ...problem.limits, budget: budget === null ? null : factor * budget },
  };
}

/** Every price of backup heat times a factor, and nothing else. */
export function scaleFuel(problem: DispatchCase, factor: number): DispatchCase {
  return {
    ...problem,
    backups: problem.backups.map((item) => ({
      ...item,
      heatPrice_per_kWh: item.heatPrice_per_kWh.map((price) => factor * price),
    })),
  };
}

/** Every load, bound, limit and existing plant times a factor; unit costs stay. */
export function scaleLoads(problem: DispatchCase, factor: number): DispatchCase {
  const times = (series: Float64Array) => series.map((value) => factor * value);
  const sized = mapSizes(problem, (size) => ({
    ...size,
    existing: factor * size.existing,
    least: factor * size.least,
    most: factor * size.most,
  }));
  const { land_m2, budget, leastSolarFraction } = problem.limits;
  return {
    ...sized,
    networks: sized.networks.map((item) => ({ ...item, fixed_kW: times(item.fixed_kW) })),
    collectors: sized.collectors.map((item) => ({
      ...item,
      least_m2: factor * item.least_m2,
      most_m2: factor * item.most_m2,
    })),
    fields: sized.fields.map((item) => ({
      ...item,
      existing_m2: factor * item.existing_m2,
      least_m2: factor * item.least_m2,
      most_m2: factor * item.most_m2,
    })),
    stores: sized.stores.map((item) => ({
      ...item,
      chargeLimit_kW: factor * item.chargeLimit_kW,
      dischargeLimit_kW: factor * item.dischargeLimit_kW,
    })),
    cold: sized.cold.map((item) => ({
      ...item,
      demand_kW: times(item.demand_kW),
      electricLimit_kW: factor * item.electricLimit_kW,
    })),
    water: sized.water.map((item) => ({
      ...item,
      order_m3_h: times(item.order_m3_h),
      capacity_m3_h: factor * item.capacity_m3_h,
      tank_m3: factor * item.tank_m3,
    })),
    batches: sized.batches.map((item) => ({
      ...item,
      power_kW: factor * item.power_kW,
      heat_kWh: factor * item.heat_kWh,
    })),
    limits: {
      land_m2: land_m2 === null ? null : factor * land_m2,
      budget: budget === null ? null : factor * budget,
      leastSolarFraction,
    },
  };
}
