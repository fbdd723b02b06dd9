import type { BlockProgram } from "./block-program.ts";
import type { Iterate } from "./iterate.ts";

/**
 * A point well inside the bounds at the natural size of each quantity: half of a bounded range, else
 * about 1 in scaled units. Reduced costs start at the cost's own size; the multiplier of a limit is
 * the smaller the more limits share its size column, since they add up in that column's dual row.
 */
export function startingPoint(p: BlockProgram): Iterate {
  const v = new Float64Array(p.variables);
  const w = new Float64Array(p.variables);
  const zl = new Float64Array(p.variables);
  const zu = new Float64Array(p.variables);
  const y = new Float64Array(p.rows);
  for (let j = 0; j < p.variables; j += 1) {
    const bounded = p.upper[j] < Number.POSITIVE_INFINITY;
    v[j] = bounded ? Math.min(1, p.upper[j] / 2) : 1;
    w[j] = bounded ? p.upper[j] - v[j] : Number.POSITIVE_INFINITY;
    zl[j] = Math.max(p.cost[j], 1);
    zu[j] = bounded ? Math.max(-p.cost[j], 1) : 0;
  }
  const count = new Float64Array(p.shared);
  for (let q = 0; q < p.limitShared.length; q += 1) count[p.limitShared[q]] += Math.abs(p.limitValues[q]);
  const first = p.interior + p.border;
  for (let i = 0; i < p.limits; i += 1) {
    let most = 1;
    for (let q = p.limitStarts[i]; q < p.limitStarts[i + 1]; q += 1) {
      const z = p.limitShared[q];
      most = Math.min(most, (10 * Math.max(p.cost[p.locals + z], 1e-3)) / count[z]);
    }
    const slack = p.slack[first + i];
    zl[slack] = most;
    if (p.upper[slack] < Number.POSITIVE_INFINITY) zu[slack] = most;
    y[first + i] = -most;
  }
  return { v, w, zl, zu, y };
}
