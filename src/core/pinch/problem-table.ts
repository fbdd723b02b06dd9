import { type ProcessStream, shifted_C } from "./process-stream.ts";

/** Heat that flows down past a shifted temperature. */
export interface CascadePoint {
  readonly shifted_C: number;
  readonly heat_kW: number;
}

/** The least heating and cooling that a set of streams needs from outside. */
export interface ProblemTable {
  readonly heating_kW: number;
  readonly cooling_kW: number;
  /**
   * Heat flow from hot to cool with the least heating at the top: the grand composite curve. A
   * temperature at which a stream changes phase stands twice, before and after its heat.
   */
  readonly cascade: readonly CascadePoint[];
  /** Shifted temperatures past which no heat flows, without the ends of the table; hot to cool. */
  readonly pinches_C: readonly number[];
}

/**
 * Problem table of pinch analysis: the heat balance of every interval of shifted temperature, and the
 * cascade in which no interval borrows from a cooler one.
 *
 * Steady flows with constant heat capacity. A change of phase at one temperature is exact, without a
 * made-up temperature step. No streams give no heat.
 *
 * Source: Linnhoff et al., User Guide on Process Integration, IChemE 1982 (1994); Kemp, Pinch Analysis
 * and Process Integration, 2nd ed. 2007, ch. 2.
 */
export function problemTable(streams: readonly ProcessStream[]): ProblemTable {
  const own = streams.map((stream) => ({
    ...stream,
    top_C: shifted_C(stream, stream.warm_C),
    bottom_C: shifted_C(stream, stream.cool_C),
    gives_kW: stream.isHot ? stream.heat_kW : -stream.heat_kW,
  }));
  const levels = [...new Set(own.flatMap(({ top_C, bottom_C }) => [top_C, bottom_C]))].sort((a, b) => b - a);
  const flows: CascadePoint[] = [];
  let heat_kW = 0;
  levels.forEach((level_C, i) => {
    if (i > 0) {
      const above_C = levels[i - 1]!;
      for (const { top_C, bottom_C, gives_kW } of own)
        if (bottom_C <= level_C && top_C >= above_C && top_C > bottom_C)
          heat_kW += (gives_kW * (above_C - level_C)) / (top_C - bottom_C);
    }
    flows.push({ shifted_C: level_C, heat_kW });
    const atOnce = own.filter(({ top_C, bottom_C }) => top_C === bottom_C && top_C === level_C);
    if (atOnce.length === 0) return;
    for (const { gives_kW } of atOnce) heat_kW += gives_kW;
    flows.push({ shifted_C: level_C, heat_kW });
  });
  const heating_kW = flows.reduce((most, flow) => Math.max(most, -flow.heat_kW), 0);
  const noise_kW = 1e-9 * own.reduce((total, stream) => total + stream.heat_kW, 0);
  const cascade = flows.map((flow): CascadePoint => {
    const passed_kW = flow.heat_kW + heating_kW;
    return { shifted_C: flow.shifted_C, heat_kW: passed_kW <= noise_kW ? 0 : passed_kW };
  });
  const inner = cascade.slice(1, -1).filter(({ heat_kW: passed }) => passed === 0);
  return {
    heating_kW,
    cooling_kW: cascade.at(-1)?.heat_kW ?? 0,
    cascade,
    pinches_C: [...new Set(inner.map((point) => point.shifted_C))],
  };
}
