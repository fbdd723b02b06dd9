import { hoursPerYear } from "../series.ts";
import { betweenMonths, scaledToMeans } from "./monthly-means.ts";
import type { RandomStream } from "./random.ts";
import type { SunYear } from "./sun-year.ts";

/** Our choices, no source: hour-to-hour correlation, daily swing, storms a year and their peaks. */
const carry = 0.93;
const dailySwing = 0.25;
const storms = 5;
const leastPeak_m_s = 14;

/**
 * Hourly wind at 10 m: a Rayleigh distribution (Weibull with k = 2, common practice where only a mean is
 * known) with memory, stronger in the afternoon, and five storms of 6 to 18 h whose hourly mean peaks at
 * 14 m/s or 3.5 times the year's mean and up to 40 % more. Monthly means are kept.
 */
export function syntheticWind_m_s(
  sun: SunYear,
  means_m_s: ArrayLike<number>,
  random: RandomStream,
): Float64Array {
  const level = betweenMonths(means_m_s);
  const step = Math.sqrt(1 - carry * carry);
  // The length of a vector of two independent normal deviates is Rayleigh distributed; its mean is √(π/2).
  let u = random.normal();
  let v = random.normal();
  const calm = Float64Array.from({ length: hoursPerYear }, (_, t) => {
    u = carry * u + step * random.normal();
    v = carry * v + step * random.normal();
    const course = 1 + dailySwing * Math.cos(((sun.hourAngle_deg[t]! - 45) * Math.PI) / 180);
    return (level[t]! * course * Math.hypot(u, v)) / Math.sqrt(Math.PI / 2);
  });

  const storm = stormsOfYear(level.reduce((sum, value) => sum + value, 0) / hoursPerYear, random);
  let wind = scaledToMeans(calm, means_m_s);
  // Storm hours keep their strength; the rest makes room for them.
  for (let round = 0; round < 6; round += 1) {
    wind = scaledToMeans(
      wind.map((speed, t) => Math.max(speed, storm[t]!)),
      means_m_s,
    );
  }
  return wind;
}

function stormsOfYear(mean_m_s: number, random: RandomStream): Float64Array {
  const storm = new Float64Array(hoursPerYear);
  for (let number = 0; number < storms; number += 1) {
    const begin = Math.floor(random.uniform() * hoursPerYear);
    const length = 6 + Math.floor(random.uniform() * 13);
    const peak = Math.max(leastPeak_m_s, 3.5 * mean_m_s) * (1 + 0.4 * random.uniform());
    for (let hour = 0; hour < length; hour += 1) {
      const t = (begin + hour) % hoursPerYear;
      storm[t] = Math.max(storm[t]!, peak * Math.sin((Math.PI * (hour + 0.5)) / length));
    }
  }
  return storm;
}
