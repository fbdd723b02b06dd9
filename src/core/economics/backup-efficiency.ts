import type { StudyCalendar } from "../calendar.ts";
import { constantYear } from "../series.ts";
import type { Backup } from "../study/schema/study.ts";
import type { WeatherYear } from "../weather.ts";

/** A heat pump with next to no lift is held to this. */
export const highestCop = 10;
const kelvinAtZero_C = 273.15;

/**
 * Heat per fuel of a backup in each hour, on the heating value that its fuel names. A heat pump gives the
 * share η of the reversible cycle between its evaporator and its condenser:
 *
 *   COP = η · T_c/(T_c − T_e),   T_c = supply + approach,   T_e = source − approach, in kelvin
 *
 * at most 10, also where the source is hotter than the condenser. Carnot's coefficient of performance:
 * any textbook of thermodynamics. Part load and frost on an air evaporator are not in it.
 */
export function backupEfficiency(
  { efficiency, heatPump }: Pick<Backup, "efficiency" | "heatPump">,
  supply_C: number,
  clock: Pick<StudyCalendar, "civilMonth">,
  weather: Pick<WeatherYear, "ambient_C">,
): Float64Array {
  if (heatPump === undefined) return constantYear(efficiency);
  const { shareOfReversible, source, sourceApproach_K, sinkApproach_K } = heatPump;
  const condenser_K = supply_C + sinkApproach_K + kelvinAtZero_C;
  const source_C =
    source.from === "outdoor-air"
      ? weather.ambient_C
      : Float64Array.from(clock.civilMonth, (month) => source.months_C[month - 1]!);
  return source_C.map((temperature_C) => {
    const lift_K = condenser_K - (temperature_C - sourceApproach_K + kelvinAtZero_C);
    const cop = lift_K > 0 ? (shareOfReversible * condenser_K) / lift_K : highestCop;
    return Math.min(highestCop, cop);
  });
}
