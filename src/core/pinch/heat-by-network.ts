import type { CascadePoint, ProblemTable } from "./problem-table.ts";

/** A heat network as a source of the heat that the streams still need. */
export interface HeatSource {
  readonly id: string;
  readonly supply_C: number;
  /** Equal to the supply where steam condenses. */
  readonly return_C: number;
  /** Its share of the least temperature difference in an exchanger. */
  readonly approach_K: number;
}

export interface NetworkHeat {
  readonly network: string;
  /** Heat that it carries beside the cooler networks when it cools from supply to return. */
  readonly heat_kW: number;
  /** What it could carry if it came back as hot as it goes out: never less than `heat_kW`. */
  readonly atSupply_kW: number;
}

/**
 * The least heating of the streams shared out among networks, the coolest sufficient one first, by the
 * grand composite curve: each network carries as much as it can without heat being lost past a pinch,
 * so pockets of the curve are served by the streams themselves.
 *
 * Source: Linnhoff et al., User Guide on Process Integration (multiple utilities); Kemp 2007, ch. 5.
 *
 * @returns the networks cool to hot, and what none of them is hot enough for
 */
export function heatByNetwork(
  table: ProblemTable,
  networks: readonly HeatSource[],
): { readonly networks: readonly NetworkHeat[]; readonly beyond_kW: number } {
  let flows = table.cascade;
  const shared: NetworkHeat[] = [];
  let left_kW = table.heating_kW;
  for (const source of [...networks].sort((a, b) => a.supply_C - b.supply_C)) {
    const top_C = source.supply_C - source.approach_K;
    const bottom_C = source.return_C - source.approach_K;
    const withLevels = flows.length === 0 ? [] : atLevels(flows, top_C, bottom_C);
    const most_kW = (low_C: number) =>
      withLevels.reduce((most, { shifted_C, heat_kW }, i) => {
        const missing = missingAbove(shifted_C, low_C, top_C, isFirstAt(withLevels, i));
        return missing > 0 ? Math.min(most, heat_kW / missing) : most;
      }, left_kW);
    const noise_kW = 1e-9 * table.heating_kW;
    const carried_kW = withLevels.length === 0 ? 0 : most_kW(bottom_C);
    const heat_kW = carried_kW <= noise_kW ? 0 : carried_kW;
    shared.push({
      network: source.id,
      heat_kW,
      atSupply_kW: withLevels.length === 0 ? 0 : Math.max(heat_kW, most_kW(top_C)),
    });
    left_kW -= heat_kW;
    if (left_kW <= noise_kW) left_kW = 0;
    flows = withLevels.map((point, i) => ({
      ...point,
      heat_kW: Math.max(
        0,
        point.heat_kW - heat_kW * missingAbove(point.shifted_C, bottom_C, top_C, isFirstAt(withLevels, i)),
      ),
    }));
  }
  return { networks: shared, beyond_kW: left_kW };
}

/** Share of a network's heat that has not yet been given where a temperature is reached from above. */
function missingAbove(level_C: number, bottom_C: number, top_C: number, isFirst: boolean): number {
  if (level_C > top_C) return 1;
  // Heat given at one temperature counts before what is taken at the same one.
  if (level_C === top_C && bottom_C === top_C) return isFirst ? 1 : 0;
  if (level_C <= bottom_C) return 0;
  return (level_C - bottom_C) / (top_C - bottom_C);
}

function isFirstAt(points: readonly CascadePoint[], index: number): boolean {
  return index === 0 || points[index - 1]!.shifted_C !== points[index]!.shifted_C;
}

/** The cascade with points of its own at the given temperatures, two where heat is given at one of them. */
function atLevels(flows: readonly CascadePoint[], top_C: number, bottom_C: number): CascadePoint[] {
  const points = [...flows];
  for (const level_C of [top_C, bottom_C]) {
    const twice = top_C === bottom_C && points.filter(({ shifted_C }) => shifted_C === level_C).length === 1;
    if (points.some(({ shifted_C }) => shifted_C === level_C) && !twice) continue;
    const below = points.findIndex(({ shifted_C }) => shifted_C < level_C);
    if (below === 0) continue;
    points.splice(below < 0 ? points.length : below, 0, {
      shifted_C: level_C,
      heat_kW: heatAt(points, below, level_C),
    });
  }
  return points;
}

/** Heat flow at a level, between the last point that is not cooler and the point `below`; -1 for none. */
function heatAt(points: readonly CascadePoint[], below: number, level_C: number): number {
  if (below < 0) return points.at(-1)!.heat_kW;
  const [hot, cool] = [points[below - 1]!, points[below]!];
  const share = (hot.shifted_C - level_C) / (hot.shifted_C - cool.shifted_C);
  return hot.heat_kW + share * (cool.heat_kW - hot.heat_kW);
}
