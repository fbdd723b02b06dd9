import type { StudyCalendar } from "../calendar.ts";
import { constantYear, hoursPerYear } from "../series.ts";
import type { Closure, Profile, WeekCalendar } from "../study/schema/study.ts";

/**
 * A profile that needs no file as 8760 hourly rates in the profile's unit.
 *
 * A week calendar is read on the factory's clock: the hour that daylight saving leaves out in spring
 * is never drawn, the hour that it doubles in autumn is drawn twice. A closed day draws nothing.
 */
export function profileHours(
  profile: Exclude<Profile, { from: "file" }>,
  calendar: StudyCalendar,
): Float64Array {
  if (profile.from === "constant") return constantYear(profile.level);
  const { level, week } = profile;
  const hours = new Float64Array(hoursPerYear);
  for (let index = 0; index < hoursPerYear; index += 1) {
    const month = calendar.civilMonth[index];
    if (isClosedDay(week.closed ?? [], month, calendar.civilDay[index])) continue;
    const share = dayShares(week, calendar.civilWeekday[index])[calendar.civilHour[index]];
    hours[index] = level * share * (week.months?.[month - 1] ?? 1);
  }
  return hours;
}

/** Whether a date lies in one of the closures; both ends count, and one may run over New Year. */
export function isClosedDay(closures: readonly Closure[], month: number, day: number): boolean {
  const date = month * 100 + day;
  return closures.some(({ from, to }) => {
    const first = monthAndDay(from);
    const last = monthAndDay(to);
    return first <= last ? date >= first && date <= last : date >= first || date <= last;
  });
}

function monthAndDay(text: string): number {
  return Number(text.slice(0, 2)) * 100 + Number(text.slice(3, 5));
}

function dayShares(week: WeekCalendar, weekday: number): readonly number[] {
  if (weekday === 6) return week.saturday;
  return weekday === 7 ? week.sunday : week.weekday;
}
