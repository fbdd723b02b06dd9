import { hourIndex } from "../../calendar.ts";

/** Quarters of the year that follow the seasons, named by months so that both hemispheres read them. */
export const seasons = [
  { name: "Dec–Feb", months: [12, 1, 2] },
  { name: "Mar–May", months: [3, 4, 5] },
  { name: "Jun–Aug", months: [6, 7, 8] },
  { name: "Sep–Nov", months: [9, 10, 11] },
] as const;

/**
 * Mean of an hourly year by season and hour of the day in standard time: four rows of 24. Hours count by
 * their weight; where a cell's weights add up to nothing, all its hours count alike. What is not a number
 * is left out; a cell without any is NaN.
 */
export function seasonHourMeans(values: Float64Array, weights?: Float64Array): Float64Array[] {
  return seasons.map(({ months }) => {
    const weighted = new Float64Array(24);
    const weight = new Float64Array(24);
    const plain = new Float64Array(24);
    const count = new Float64Array(24);
    for (const month of months) {
      const end = month === 12 ? values.length : hourIndex(month + 1, 1, 0);
      for (let t = hourIndex(month, 1, 0); t < end; t += 1) {
        const value = values[t];
        if (!Number.isFinite(value)) continue;
        const hour = t % 24;
        const w = weights === undefined ? 1 : weights[t];
        weighted[hour] += w * value;
        weight[hour] += w;
        plain[hour] += value;
        count[hour] += 1;
      }
    }
    return weighted.map((sum, hour) => (weight[hour] > 0 ? sum / weight[hour] : plain[hour] / count[hour]));
  });
}
