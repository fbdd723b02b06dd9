import type { StudyCalendar } from "../calendar.ts";
import { isClosedDay } from "../month-day.ts";
import { hoursPerYear } from "../series.ts";
import type { Backup, Calendar } from "../study/schema/study.ts";
import { calendarShares } from "./calendar-shares.ts";

/**
 * Share of a backup's power that can be had in each hour: its calendar's, at most 1, and nothing on the days
 * of an outage, by the factory's clock. Undefined where it is always ready.
 */
export function backupAvailability(
  { calendar, outages = [] }: Pick<Backup, "calendar" | "outages">,
  calendars: readonly Calendar[],
  clock: StudyCalendar,
): Float64Array | undefined {
  const own = calendars.find(({ id }) => id === calendar);
  if (own === undefined && outages.length === 0) return undefined;
  const shares = own === undefined ? null : calendarShares(own, clock);
  return Float64Array.from({ length: hoursPerYear }, (_, t) => {
    if (isClosedDay(outages, clock.civilMonth[t]!, clock.civilDay[t]!)) return 0;
    return shares === null ? 1 : Math.min(1, shares[t]!);
  });
}
