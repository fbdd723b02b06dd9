import type { ProcessStream } from "./process-stream.ts";

/** Heat content up to a temperature, counted from `start_kW` at the coolest one. */
export interface CompositePoint {
  readonly temperature_C: number;
  readonly heat_kW: number;
}

/**
 * Composite curve of the hot or of the cold streams at their own temperatures, cool to warm. A change
 * of phase stands as two points at one temperature.
 */
export function compositeCurve(
  streams: readonly ProcessStream[],
  side: "hot" | "cold",
  start_kW = 0,
): CompositePoint[] {
  const own = streams.filter(({ isHot }) => isHot === (side === "hot"));
  const levels = [...new Set(own.flatMap(({ cool_C, warm_C }) => [cool_C, warm_C]))].sort((a, b) => a - b);
  const points: CompositePoint[] = [];
  let heat_kW = start_kW;
  levels.forEach((level_C, i) => {
    if (i > 0) {
      const below_C = levels[i - 1]!;
      for (const { cool_C, warm_C, heat_kW: all_kW } of own)
        if (cool_C <= below_C && warm_C >= level_C && warm_C > cool_C)
          heat_kW += (all_kW * (level_C - below_C)) / (warm_C - cool_C);
    }
    points.push({ temperature_C: level_C, heat_kW });
    const atOnce = own.filter(({ cool_C, warm_C }) => cool_C === level_C && warm_C === level_C);
    if (atOnce.length === 0) return;
    for (const { heat_kW: more_kW } of atOnce) heat_kW += more_kW;
    points.push({ temperature_C: level_C, heat_kW });
  });
  return points;
}
