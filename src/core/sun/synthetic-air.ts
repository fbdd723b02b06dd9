import { hoursPerYear } from "../series.ts";
import { betweenMonths, monthStarts, movedToMeans } from "./monthly-means.ts";
import type { RandomStream } from "./random.ts";
import type { SunYear } from "./sun-year.ts";

/** Hour-to-hour correlation and standard deviation of the weather's own swings; our choice, no source. */
const carry = 0.98;
const deviation_K = 2;

/**
 * Air temperature: the month's mean, a daily sine with its top at 15 h solar time (larger on clear days)
 * and a slow random swing; monthly means are kept exactly. The shape is our own.
 */
export function syntheticAmbient_C(
  sun: SunYear,
  means_C: ArrayLike<number>,
  swing_K: ArrayLike<number>,
  dayClearness: Float64Array,
  random: RandomStream,
): Float64Array {
  const swing = betweenMonths(swing_K);
  const base = betweenMonths(means_C);
  const relative = againstMonth(dayClearness);
  let drift = random.normal();
  const ambient = Float64Array.from({ length: hoursPerYear }, (_, t) => {
    drift = carry * drift + Math.sqrt(1 - carry * carry) * random.normal();
    const size = swing[t]! * (0.6 + 0.4 * Math.min(1.6, relative[Math.floor(t / 24)]!));
    const course = Math.cos(((sun.hourAngle_deg[t]! - 45) * Math.PI) / 180);
    return base[t]! + (size / 2) * course + deviation_K * drift;
  });
  return movedToMeans(ambient, means_C);
}

/**
 * Relative humidity: the day's vapour pressure is steady, so it falls as the air warms; between 5 and 100 %.
 * Saturation by Alduchov & Eskridge, J. Appl. Meteor. 35 (1996) 601.
 */
export function syntheticHumidity(ambient_C: Float64Array, means: ArrayLike<number>): Float64Array {
  const wanted = betweenMonths(means);
  const humidity = new Float64Array(hoursPerYear);
  for (let first = 0; first < hoursPerYear; first += 24) {
    let saturation = 0;
    for (let t = first; t < first + 24; t += 1) saturation += 1 / saturation_hPa(ambient_C[t]!);
    for (let t = first; t < first + 24; t += 1) {
      humidity[t] = ((wanted[t]! * 24) / saturation) * (1 / saturation_hPa(ambient_C[t]!));
    }
  }
  // Clipping moves the mean, so clip and move in turn.
  let clipped = humidity;
  for (let round = 0; round < 8; round += 1) {
    clipped = movedToMeans(clipped, means).map((share) => Math.min(1, Math.max(0.05, share)));
  }
  return clipped;
}

function saturation_hPa(air_C: number): number {
  return 6.1094 * Math.exp((17.625 * air_C) / (243.04 + air_C));
}

/** Each day's clearness over the mean of its month. */
function againstMonth(dayClearness: Float64Array): Float64Array {
  const relative = new Float64Array(365);
  for (let month = 0; month < 12; month += 1) {
    const days = dayClearness.subarray(monthStarts[month]! / 24, monthStarts[month + 1]! / 24);
    const mean = days.reduce((sum, value) => sum + value, 0) / days.length;
    relative.set(
      days.map((value) => value / mean),
      monthStarts[month]! / 24,
    );
  }
  return relative;
}
