import type { NetworkHours } from "../core/dispatch/hourly-result.ts";

/** 168 hours of one heat network, split by where the heat comes from; kW, means over the hour. */
export interface WeekSlice {
  /** E.g. "A week in June". */
  readonly name: string;
  /** 1 Monday to 7 Sunday. */
  readonly firstWeekday: number;
  readonly demand_kW: Float64Array;
  readonly direct_kW: Float64Array;
  readonly fromStore_kW: Float64Array;
  readonly stepIn_kW: Float64Array;
  readonly backup_kW: Float64Array;
  readonly intoStore_kW: Float64Array;
  readonly spill_kW: Float64Array;
  /** At the end of the hour. */
  readonly content_kWh: Float64Array;
}

export interface WeekStart {
  readonly name: string;
  readonly firstHour: number;
  readonly firstWeekday: number;
}

/**
 * A week of a network. What charges the store is taken to be the sun's heat first, then heat stepped
 * in, then backup heat; what remains of each serves the demand (and step-downs) at once.
 */
export function weekSlice(network: NetworkHours, start: WeekStart): WeekSlice {
  const cut = (series: Float64Array) => series.slice(start.firstHour, start.firstHour + 168);
  const charge = cut(network.charge_kW);
  const solar = cut(network.solar_kW);
  const stepped = cut(network.stepIn_kW);
  const burnt = cut(network.backup_kW);
  const afterSun = charge.map((power, hour) => Math.max(0, power - solar[hour]!));
  const afterStep = afterSun.map((power, hour) => Math.max(0, power - stepped[hour]!));
  return {
    name: start.name,
    firstWeekday: start.firstWeekday,
    demand_kW: cut(network.demand_kW),
    direct_kW: solar.map((power, hour) => Math.max(0, power - charge[hour]!)),
    fromStore_kW: cut(network.discharge_kW),
    stepIn_kW: stepped.map((power, hour) => Math.max(0, power - afterSun[hour]!)),
    backup_kW: burnt.map((power, hour) => Math.max(0, power - afterStep[hour]!)),
    intoStore_kW: charge,
    spill_kW: cut(network.spill_kW),
    content_kWh: cut(network.content_kWh),
  };
}
