import { hourWords, numberWords } from "./hour-words.ts";
import { findingAt, type HourLines, type QualityFinding } from "./quality-report.ts";

const neighbours_h = [-2, -1, 1, 2, -24, 24, -48, 48, -72, 72, -168, 168] as const;
const timesDeviation = 10;
/** Median absolute deviation to standard deviation of a normal distribution: 1/Φ⁻¹(3/4). */
const madToSigma = 1.4826;
const leastSpreadShare = 0.05;
const mostNamed = 20;

/**
 * Hours that stand far out: more than 10 robust standard deviations (median absolute deviation) above
 * or below the median of the two hours on either side and of the same hour 1, 2, 3 and 7 days before
 * and after, and above (below) both direct neighbours by the same measure. The spread counts as at
 * least 5 % of the year's mean size, so that an even load does not make every ripple a spike.
 */
export function spikeFindings(hourly: Float64Array, lines: HourLines): QualityFinding[] {
  const n = hourly.length;
  const meanSize = hourly.reduce((total, value) => total + Math.abs(value), 0) / n;
  if (!(meanSize > 0)) return [];
  const near = new Float64Array(neighbours_h.length);
  const away = new Float64Array(neighbours_h.length);
  const spikes: { hour: number; usual: number }[] = [];
  for (let hour = 0; hour < n; hour += 1) {
    const value = hourly[hour];
    for (let k = 0; k < near.length; k += 1) near[k] = hourly[(hour + neighbours_h[k]! + n) % n];
    // A spike must leave its direct neighbours behind; this also spares the sorting below.
    const previous = near[1];
    const next = near[2];
    const reach = timesDeviation * leastSpreadShare * meanSize;
    if (Math.abs(value - previous) <= reach || Math.abs(value - next) <= reach) continue;
    if (value > previous !== value > next) continue;
    const usual = median(near);
    for (let k = 0; k < near.length; k += 1) away[k] = Math.abs(near[k] - usual);
    const spread = Math.max(madToSigma * median(away), leastSpreadShare * meanSize);
    if (Math.abs(value - usual) > timesDeviation * spread) spikes.push({ hour, usual });
  }
  const findings = spikes
    .slice(0, mostNamed)
    .map(({ hour, usual }) =>
      findingAt(
        "spike",
        `${hourWords(hour)} reads ${numberWords(hourly[hour])} where the hours and days around it read about ${numberWords(usual)}. Check it: a single false peak sizes plant.`,
        { from: hour, to: hour, count: 1 },
        lines,
      ),
    );
  const rest = spikes.slice(mostNamed);
  if (rest.length > 0) {
    findings.push(
      findingAt(
        "spike",
        `Another ${rest.length} single hours stand out in the same way between ${hourWords(rest[0]!.hour)} and ${hourWords(rest[rest.length - 1]!.hour)}.`,
        { from: rest[0]!.hour, to: rest[rest.length - 1]!.hour, count: rest.length },
        lines,
      ),
    );
  }
  return findings;
}

/** Sorts in place. */
function median(values: Float64Array): number {
  values.sort();
  const half = values.length >> 1;
  return values.length % 2 === 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}
