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
    v[j] = bounded
      ? Math.min(Number(process.env.F4 ?? 1), p.upper[j] / 2)
      : j >= p.locals && j < p.columns
        ? Number(process.env.F5 ?? 1)
        : Number(process.env.F4 ?? 1);
    w[j] = bounded ? p.upper[j] - v[j] : Number.POSITIVE_INFINITY;
    zl[j] = Math.max(p.cost[j] * Number(process.env.F2 ?? 1), Number(process.env.F3 ?? 1));
    zu[j] = bounded ? Math.max(-p.cost[j], Number(process.env.F3 ?? 1)) : 0;
  }
  const FL = Number(process.env.FL ?? 0.01);
  if (FL > 0) {
    const g = p.interior + p.border;
    for (let i = 0; i < p.limits; i += 1) {
      let room = p.rhs[g + i];
      for (let q = p.limitStarts[i]; q < p.limitStarts[i + 1]; q += 1)
        room -= p.limitValues[q] * v[p.locals + p.limitShared[q]];
      const j = p.limitLocal[i];
      const a = p.limitCoefficient[i];
      if (a > 0) {
        v[j] = Math.min(v[j], Math.max(room / 2 / a, FL));
        if (p.upper[j] < Infinity) w[j] = p.upper[j] - v[j];
      }
      const s = p.slack[g + i];
      v[s] = Math.max(FL, room - a * v[j]);
      if (p.upper[s] < Infinity) {
        v[s] = Math.min(v[s], p.upper[s] / 2);
        w[s] = p.upper[s] - v[s];
      }
    }
  }
  const count = new Float64Array(p.shared);
  for (let q = 0; q < p.limitShared.length; q += 1) count[p.limitShared[q]] += Math.abs(p.limitValues[q]);
  const first = p.interior + p.border;
  for (let i = 0; i < p.limits; i += 1) {
    let most = 1;
    for (let q = p.limitStarts[i]; q < p.limitStarts[i + 1]; q += 1) {
      const z = p.limitShared[q];
      most = Math.min(most, (Number(process.env.F1 ?? 10) * Math.max(p.cost[p.locals + z], 1e-3)) / count[z]);
    }
    const slack = p.slack[first + i];
    zl[slack] = most;
    if (p.upper[slack] < Number.POSITIVE_INFINITY) zu[slack] = most;
    y[first + i] = -most;
  }
  return { v, w, zl, zu, y };
}
