import type { DispatchCase } from "../dispatch/case.ts";

/** Where a controller takes the coming days from. */
export type Forecast = "persistence" | "perfect";

/** Days whose mean stands for the coming sun. */
const sunDays = 3;
const daysOfWeek = 7;

/** Blocks of a plan: where the cycle and the plan begin, its length, and the blocks of a day. */
export interface Horizon {
  readonly cycleStart: number;
  readonly start: number;
  readonly length: number;
  readonly day: number;
}

/** A series over the horizon as the controller expects it. */
type Look = (series: Float64Array, horizon: Horizon) => Float64Array;

/** Today's values are as unknown as tomorrow's: only whole days before the plan count. */
const asRecently: Look = (series, { cycleStart, start, length, day }) => {
  const known = Math.floor((start - cycleStart) / day);
  const days = Math.min(sunDays, known);
  return Float64Array.from({ length }, (_, n) => {
    let sum = 0;
    for (let back = 1; back <= days; back += 1) sum += series[start - back * day + (n % day)];
    return days > 0 ? sum / days : 0;
  });
};

const asLastWeek: Look = (series, { cycleStart, start, length, day }) =>
  Float64Array.from({ length }, (_, n) => {
    const weekAgo = start + n - daysOfWeek * day;
    if (weekAgo >= cycleStart) return series[weekAgo];
    return start - day >= cycleStart ? series[start - day + (n % day)] : 0;
  });

/** What the weather does to chillers: as the day before, on the first day as it comes. */
const asYesterday: Look = (series, { cycleStart, start, length, day }) =>
  Float64Array.from(
    { length },
    (_, n) => series[start - day < cycleStart ? start + n : start - day + (n % day)],
  );

const asItComes: Look = (series, { start, length }) => series.slice(start, start + length);

/**
 * The problem over a horizon as the controller expects it. By persistence the sun of each hour is the
 * mean of that hour over the last three days; demand, cold and water are those of the same hour a week
 * ago, in the first week those of the day before; chillers are what they were a day ago. Prices are
 * known, and so are batch windows, which are left out here: what is due depends on what was done.
 */
export function expectedCase(problem: DispatchCase, forecast: Forecast, horizon: Horizon): DispatchCase {
  const { start, length } = horizon;
  const sun = forecast === "perfect" ? asItComes : asRecently;
  const demand = forecast === "perfect" ? asItComes : asLastWeek;
  const chilling = forecast === "perfect" ? asItComes : asYesterday;
  const known = (series: Float64Array) => series.slice(start, start + length);
  return {
    ...problem,
    blocks: length,
    weight: known(problem.weight),
    cycles: [{ start: 0, length }],
    networks: problem.networks.map((item) => ({ ...item, fixed_kW: demand(item.fixed_kW, horizon) })),
    fields: problem.fields.map((item) => ({
      ...item,
      yield_kW_per_m2: sun(item.yield_kW_per_m2, horizon),
      // Running collectors draw the same whatever is decided.
      parasitic_kW_per_m2: new Float64Array(length),
    })),
    cold: problem.cold.map((item) => ({
      ...item,
      demand_kW: demand(item.demand_kW, horizon),
      electricCop: chilling(item.electricCop, horizon),
    })),
    chillers: problem.chillers.map((item) => ({
      ...item,
      cop: chilling(item.cop, horizon),
      capacityFactor: chilling(item.capacityFactor, horizon),
    })),
    water: problem.water.map((item) => ({
      ...item,
      order_m3_h: demand(item.order_m3_h, horizon),
      heat_kWh_per_m3: chilling(item.heat_kWh_per_m3, horizon),
    })),
    batches: [],
    backups: problem.backups.map((item) => ({
      ...item,
      heatPrice_per_kWh: known(item.heatPrice_per_kWh),
      // Outages are planned.
      ...(item.available === undefined ? {} : { available: known(item.available) }),
    })),
    electricityPrice_per_kWh: known(problem.electricityPrice_per_kWh),
    limits: { land_m2: null, budget: null, leastSolarFraction: null },
  };
}
