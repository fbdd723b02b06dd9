import type { Backup } from "../study/schema/study.ts";

type BoilerCurve = Pick<Backup, "efficiency" | "partLoad" | "standby_kW">;

/**
 * Heat that would have taken the same fuel at the boiler's one efficiency, hour by hour: what it fires by its
 * curve at the load of the hour, and its standby fuel in hours in which it is ready and gives nothing. The
 * efficiency of a load between two points lies on the straight line between them, beyond the ends on the end;
 * with a heat pump the curve weighs its coefficient of the hour. The hours themselves where the boiler has
 * neither.
 *
 * @param heat_kW what it gives, by hour
 * @param power_kW existing and new; may be Infinity without points
 * @param available share of its power that can be had, by hour; undefined where always ready
 * @param efficiency heat per fuel of the hour at the one efficiency, on the basis of the standby fuel
 */
export function heatAtOneEfficiency(
  boiler: BoilerCurve,
  heat_kW: Float64Array,
  power_kW: number,
  available: Float64Array | undefined,
  efficiency: Float64Array,
): Float64Array {
  const { partLoad = [], standby_kW = 0 } = boiler;
  if (partLoad.length === 0 && standby_kW === 0) return heat_kW;
  const points = [...partLoad].sort((a, b) => a.load - b.load);
  return heat_kW.map((heat, t) => {
    if (heat > 0) {
      if (points.length === 0) return heat;
      return (heat * boiler.efficiency) / efficiencyAt(points, heat / power_kW);
    }
    const ready = available === undefined || available[t]! > 0;
    return ready ? standby_kW * efficiency[t]! : 0;
  });
}

/** On the line through the points, by load; the ends hold beyond them. */
export function efficiencyAt(points: NonNullable<Backup["partLoad"]>, load: number): number {
  const after = points.findIndex((point) => point.load >= load);
  if (after < 0) return points.at(-1)!.efficiency;
  if (after === 0) return points[0]!.efficiency;
  const [a, b] = [points[after - 1]!, points[after]!];
  return a.efficiency + ((b.efficiency - a.efficiency) * (load - a.load)) / (b.load - a.load);
}
