import { hoursPerYear } from "../series.ts";

/** How well a log follows a calendar as it stands, and moved so that it follows best. */
export interface ClockOffset {
  /** Hours to add to the log's times; never 0. */
  readonly move_h: number;
  readonly correlation: number;
  readonly asItStands: number;
}

const widest_h = 12;
/** Common practice, no source: less than this is no shift plan, and less gain than that no proof. */
const least = { correlation: 0.5, gain: 0.05 } as const;
const leastKnown_h = 168;

/**
 * Whether a log follows a shift plan better when its times are moved by whole hours, up to twelve each way.
 * Null where it does not, or where too little is known or the plan is even. `hourly`: 8760 rates as they
 * stand, NaN where unknown; `shares`: the plan's on the log's own dates. Of equal moves the smaller counts.
 */
export function clockOffset(hourly: Float64Array, shares: Float64Array): ClockOffset | null {
  const known: number[] = [];
  for (let t = 0; t < hoursPerYear; t += 1) if (!Number.isNaN(hourly[t])) known.push(t);
  if (known.length < leastKnown_h) return null;
  const moved = (move_h: number) => correlation(hourly, shares, known, move_h);
  const asItStands = moved(0);
  let [best, move_h] = [asItStands, 0];
  for (let step = 1; step <= widest_h; step += 1)
    for (const move of [step, -step]) {
      const found = moved(move);
      if (found > best + 1e-9) [best, move_h] = [found, move];
    }
  if (move_h === 0 || !(best >= least.correlation) || !(best - asItStands >= least.gain)) return null;
  return { move_h, correlation: best, asItStands };
}

/** Pearson's, of the rate at t and the share at t + move; 0 where either is constant. */
function correlation(
  rate: Float64Array,
  share: Float64Array,
  hours: readonly number[],
  move_h: number,
): number {
  let [r, s, rr, ss, rs] = [0, 0, 0, 0, 0];
  for (const t of hours) {
    const x = rate[t]!;
    const y = share[(t + move_h + hoursPerYear) % hoursPerYear]!;
    r += x;
    s += y;
    rr += x * x;
    ss += y * y;
    rs += x * y;
  }
  const n = hours.length;
  const [varianceR, varianceS] = [n * rr - r * r, n * ss - s * s];
  if (!(varianceR > 1e-12 * n * rr) || !(varianceS > 1e-12 * n * ss)) return 0;
  return (n * rs - r * s) / Math.sqrt(varianceR * varianceS);
}
