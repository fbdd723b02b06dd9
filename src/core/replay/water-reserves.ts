import type { DispatchCase } from "../dispatch/case.ts";

const hoursAhead = 24;
/** Orders differ from day to day. */
const margin = 1.1;

/**
 * What a tank should hold at the end of each block so that a day like the last one, drawn a tenth
 * more, would not run it dry with the plant at full capacity: max over n of Σ (1.1·order − capacity).
 * By water order, then block, m³; at most the tank. The first day of a cycle goes by its own order,
 * which the works has placed.
 */
export function waterReserves({ water, cycles, blocks, step_h }: DispatchCase): Float64Array[] {
  const ahead = Math.max(1, Math.round(hoursAhead / step_h));
  return water.map(({ order_m3_h, capacity_m3_h, tank_m3 }) => {
    const reserve_m3 = new Float64Array(blocks);
    for (const { start, length } of cycles) {
      for (let t = start; t < start + length; t += 1) {
        let drawn_m3 = 0;
        let most_m3 = 0;
        for (let n = 1; n <= ahead; n += 1) {
          const like = t + n - ahead;
          const block = like >= start ? like : Math.min(t + n, start + length - 1);
          drawn_m3 += (margin * order_m3_h[block] - capacity_m3_h) * step_h;
          most_m3 = Math.max(most_m3, drawn_m3);
        }
        reserve_m3[t] = Math.min(most_m3, tank_m3);
      }
    }
    return reserve_m3;
  });
}
