import type { StudyCalendar } from "../../calendar.ts";
import { hoursPerYear } from "../../series.ts";

/** A day on the factory's clock: 24 hours, 23 or 25 where daylight saving begins or ends. */
export interface CivilDay {
  readonly month: number;
  readonly day: number;
  /** 1 Monday to 7 Sunday. */
  readonly weekday: number;
  /** Hour indices of the study year in the order of the clock. */
  readonly hours: readonly number[];
}

/**
 * The 365 days of the study year on the factory's clock, each hour of the year in exactly one.
 *
 * Where daylight saving lasts over New Year, the hour that civil time puts into the next (or the
 * former) year closes the ring: it counts to this year's day of the same date. An hour of 29 February,
 * which the study year leaves out, counts to the day beside it.
 */
export function civilDays(calendar: StudyCalendar): CivilDay[] {
  // Key month·100 + day, e.g. 301 → the hours of 1 March.
  const days = new Map<number, number[]>();
  for (let index = 0; index < hoursPerYear; index += 1) {
    const date = dateOf(calendar, index);
    const hours = days.get(date);
    if (hours === undefined) days.set(date, [index]);
    else hours.push(index);
  }
  return [...days.entries()]
    .sort(([a], [b]) => a - b)
    .map(([date, hours]) => {
      hours.sort((a, b) => placeOnRing(date, a) - placeOnRing(date, b));
      // Noon is never moved into another day, so its weekday is the day's own.
      const noon = hours[Math.floor(hours.length / 2)];
      return {
        month: Math.floor(date / 100),
        day: date % 100,
        weekday: calendar.civilWeekday[noon],
        hours,
      };
    });
}

function dateOf(calendar: StudyCalendar, index: number): number {
  const date = calendar.civilMonth[index] * 100 + calendar.civilDay[index];
  if (date !== 229) return date;
  return calendar.civilHour[index] < 12 ? 301 : 228;
}

/** The last hour of the year may be the first of 1 January, and the first the last of 31 December. */
function placeOnRing(date: number, index: number): number {
  if (date === 101 && index > hoursPerYear / 2) return index - hoursPerYear;
  if (date === 1231 && index < hoursPerYear / 2) return index + hoursPerYear;
  return index;
}
