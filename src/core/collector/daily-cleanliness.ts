import type { Collector } from "../study/schema/collector.ts";

const daysPerYear = 365;

/**
 * Cleanliness of each day of the year: the collector's one figure, or, with soiling, that figure less the same
 * share of it for every day since the last washing. It is washed before dawn on 1 January and every `washEvery_days`
 * days after, so the last interval of the year may be shorter. Rain does not wash. A constant rate between
 * cleanings is the form of Kimber et al., "The effect of soiling on large grid-connected photovoltaic systems in
 * California and the Southwest region of the United States", IEEE WCPEC-4 (2006), here without its rain; from memory.
 *
 * @returns 365 shares, a new array; not below 0
 */
export function dailyCleanliness({
  cleanliness,
  soiling,
}: Pick<Collector, "cleanliness" | "soiling">): Float64Array {
  const days = new Float64Array(daysPerYear).fill(cleanliness);
  if (soiling === undefined) return days;
  const { lossPerDay, washEvery_days } = soiling;
  return days.map((clean, day) => clean * Math.max(0, 1 - lossPerDay * (day % washEvery_days)));
}

/** Water that washing takes in a year, litres per m² of aperture; 0 where none was given. */
export function washingWater_L_per_m2({ soiling }: Pick<Collector, "soiling">): number {
  if (soiling === undefined) return 0;
  return (soiling.water_L_per_m2 ?? 0) * Math.ceil(daysPerYear / soiling.washEvery_days);
}
