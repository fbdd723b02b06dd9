import { monthLength_days } from "../calendar.ts";
import { isClosedDay, isWithin, monthAndDay } from "../month-day.ts";
import type { Calendar } from "../study/schema/study.ts";

/** What a calendar says of one date. */
export interface CalendarDay {
  /** 1 Monday to 7 Sunday: whose shifts or shares are run; null on a closed day. */
  readonly runsAs: number | null;
  readonly factor: number;
}

/** How a calendar sees its dates; each date is worked out once. */
export type DayReader = (month: number, day: number, weekday: number) => CalendarDay;

/**
 * A reader of a calendar's dates. A shut-down closes whatever else a date is; then a holiday tells how
 * its date runs; the factor is that of the campaign, or else of the month, and 1 where neither is said.
 */
export function dayReader(calendar: Calendar): DayReader {
  const known = new Map<number, CalendarDay>();
  return (month, day, weekday) => {
    const key = (month * 100 + day) * 10 + weekday;
    const before = known.get(key);
    if (before !== undefined) return before;
    const read = readDay(calendar, month, day, weekday);
    known.set(key, read);
    return read;
  };
}

function readDay(calendar: Calendar, month: number, day: number, weekday: number): CalendarDay {
  const date = month * 100 + day;
  const campaign = calendar.campaigns?.find((span) => isWithin(date, span));
  const factor = campaign?.factor ?? calendar.months?.[month - 1] ?? 1;
  if (isClosedDay(calendar.closed ?? [], month, day)) return { runsAs: null, factor };
  const holiday = calendar.holidays?.find((one) => monthAndDay(one.date) === date);
  if (holiday === undefined) return { runsAs: weekday, factor };
  if (holiday.runsAs === "closed") return { runsAs: null, factor };
  return { runsAs: holiday.runsAs === "saturday" ? 6 : 7, factor };
}

/** The date before; 28 February before 1 March in every year, as the study's year has no 29th. */
export function dayBefore(month: number, day: number): { month: number; day: number } {
  if (day > 1) return { month, day: day - 1 };
  const before = month === 1 ? 12 : month - 1;
  return { month: before, day: monthLength_days(before) };
}
