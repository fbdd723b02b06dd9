import type { StudyCalendar } from "../calendar.ts";
import { ModelError } from "../errors.ts";
import { constantYear } from "../series.ts";
import type { Calendar, Profile } from "../study/schema/study.ts";
import { calendarShares } from "./calendar-shares.ts";

/**
 * A profile that needs neither file nor bills as 8760 hourly rates in the profile's unit: its level, or its level times
 * the shares of the calendar that it names. @throws ModelError UNKNOWN_ID where there is no such calendar
 */
export function profileHours(
  profile: Exclude<Profile, { from: "file" | "bills" }>,
  calendars: readonly Calendar[],
  clock: StudyCalendar,
): Float64Array {
  if (profile.from === "constant") return constantYear(profile.level);
  const calendar = calendars.find(({ id }) => id === profile.calendar);
  if (calendar === undefined) throw new ModelError("UNKNOWN_ID", profile.calendar);
  return calendarShares(calendar, clock).map((share) => profile.level * share);
}
