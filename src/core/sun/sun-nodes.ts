import { within180 } from "./spa/angles.ts";
import { geocentricSun } from "./spa/geocentric-sun.ts";

/** Slow coordinates of the sun at equal steps of time, for interpolation between them. */
export interface SunNodes {
  readonly first_ms: number;
  readonly step_ms: number;
  readonly declination_deg: Float64Array;
  /** Hour angle at Greenwich less 15° per hour since 12:00 UTC: a smooth curve within ±5°. */
  readonly equation_deg: Float64Array;
  readonly distance_AU: Float64Array;
}

const day_ms = 86_400_000;
const step_days = 4;

/** Solar Position Algorithm at nodes four days apart that enclose the span from `from_ms` to `to_ms`. */
export function sunNodes(from_ms: number, to_ms: number, deltaT_s: number): SunNodes {
  const step_ms = step_days * day_ms;
  const first_ms = Math.floor(from_ms / day_ms) * day_ms - 2 * step_ms;
  const count = Math.ceil((to_ms - first_ms) / step_ms) + 3;
  const declination_deg = new Float64Array(count);
  const equation_deg = new Float64Array(count);
  const distance_AU = new Float64Array(count);
  for (let node = 0; node < count; node += 1) {
    const sun = geocentricSun(first_ms + node * step_ms, deltaT_s);
    declination_deg[node] = sun.declination_deg;
    // Nodes lie at 0 h UTC, where the mean sun stands at -180°.
    equation_deg[node] = within180(sun.apparentSiderealTime_deg - sun.rightAscension_deg + 180);
    distance_AU[node] = sun.distance_AU;
  }
  return { first_ms, step_ms, declination_deg, equation_deg, distance_AU };
}

/** Cubic through the four nodes around an instant (Lagrange). */
export function atInstant(nodes: SunNodes, series: Float64Array, instant_ms: number): number {
  const place = (instant_ms - nodes.first_ms) / nodes.step_ms;
  const i = Math.floor(place);
  const x = place - i;
  const a = series[i - 1]!;
  const b = series[i]!;
  const c = series[i + 1]!;
  const d = series[i + 2]!;
  return (
    (-x * (x - 1) * (x - 2) * a) / 6 +
    ((x + 1) * (x - 1) * (x - 2) * b) / 2 -
    ((x + 1) * x * (x - 2) * c) / 2 +
    ((x + 1) * x * (x - 1) * d) / 6
  );
}
