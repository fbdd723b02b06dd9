import { hoursPerYear } from "../series.ts";
import type { Storm } from "../study/schema/collector-running.ts";
import type { SunYear } from "../sun/sun-year.ts";
import type { WeatherYear } from "../weather.ts";
import { stowedHours } from "./stowed-hours.ts";

/** How a year's storms keep a collector from its work. */
export interface StormSpells {
  /** Hours whose mean wind lies above the limit. */
  readonly hoursAbove: number;
  readonly stowedHours: number;
  readonly stowedSunlitHours: number;
  /** Times that it is stowed; the year is a ring. */
  readonly spells: number;
  readonly longest_h: number;
  /** DNI in stowed hours, kWh/m². */
  readonly dniMissed_kWh_m2: number;
  /** Hours above the limit in each month. */
  readonly hoursAboveByMonth: readonly number[];
  readonly stowedHoursByMonth: readonly number[];
}

export function stormSpells(
  weather: WeatherYear,
  sun: SunYear,
  storm: Storm,
  monthStarts: readonly number[],
): StormSpells {
  const stowed = stowedHours(weather.wind_m_s, storm);
  const lengths = spellLengths(stowed);
  let sunlit = 0;
  let missed_Wh = 0;
  for (let t = 0; t < hoursPerYear; t += 1) {
    if (stowed[t] === 0) continue;
    if (sun.sunlitShare[t]! > 0) sunlit += 1;
    missed_Wh += weather.dni_W_m2[t]!;
  }
  const above = (from: number, to: number) =>
    weather.wind_m_s.subarray(from, to).filter((wind) => wind > storm.stowWind_m_s).length;
  const byMonth = (count: (from: number, to: number) => number) =>
    Array.from({ length: 12 }, (_, month) => count(monthStarts[month]!, monthStarts[month + 1]!));
  return {
    hoursAbove: above(0, hoursPerYear),
    stowedHours: lengths.reduce((all, length) => all + length, 0),
    stowedSunlitHours: sunlit,
    spells: lengths.length,
    longest_h: lengths.reduce((most, length) => Math.max(most, length), 0),
    dniMissed_kWh_m2: missed_Wh / 1000,
    hoursAboveByMonth: byMonth(above),
    stowedHoursByMonth: byMonth((from, to) => stowed.subarray(from, to).reduce((all, one) => all + one, 0)),
  };
}

/** Lengths of the runs of 1 round the ring of the year. */
function spellLengths(stowed: Uint8Array): number[] {
  const calm = stowed.indexOf(0);
  if (calm < 0) return [stowed.length];
  const lengths: number[] = [];
  let run = 0;
  for (let step = 1; step <= stowed.length; step += 1) {
    if (stowed[(calm + step) % stowed.length] === 1) run += 1;
    else if (run > 0) {
      lengths.push(run);
      run = 0;
    }
  }
  return lengths;
}
