import type { FuelMeter } from "../study/schema/profile.ts";

/**
 * Heat that a boiler made of one unit of metered fuel, kWh per m³ or kg (per kWh where the meter counts
 * kWh): heating value × efficiency, and the norm volume of a metered m³ where it is given, both on the basis that `heatingValueIs` names, so that the basis
 * itself cancels. Definition of boiler efficiency by the direct method (EN 12952-15, EN 12953-11, from
 * memory). The one efficiency stands for every hour: part load and standby are not told apart.
 */
export function heatPerFuel_kWh({ kWh_per_unit, efficiency, norm_per_metered = 1 }: FuelMeter): number {
  return kWh_per_unit * norm_per_metered * efficiency;
}

/** A sentence where the efficiency cannot be on the basis named; null where it can. */
export function fuelMeterFault({ efficiency, heatingValueIs }: FuelMeter): string | null {
  if (heatingValueIs === "net" || efficiency <= 1) return null;
  return `The boiler's efficiency of ${efficiency} is said to be on the gross heating value, where it can be 1 at most; correct it or give both on the net heating value.`;
}
