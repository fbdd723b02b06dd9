import { type StudyCalendar, studyCalendar } from "../../core/calendar.ts";
import { calendarShares } from "../../core/demand/calendar-shares.ts";
import { clockOffset } from "../../core/demand/clock-offset.ts";
import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { Calendar } from "../../core/study/schema/study.ts";
import type { Question } from "./account.ts";

/** The calendar that a file is said to follow, as shares on the file's dates and on the study's. */
export interface ReadingPlan {
  readonly name: string;
  /** In the file's own year, with its weekdays; in the study's where the file has no year. */
  readonly sharesThen: Float64Array;
  readonly shares: Float64Array;
  readonly extend: boolean;
}

/** The plan of a reading; null where it names none, or one that is not there. */
export function planOfReading(
  reading: DemandReading,
  calendars: readonly Calendar[],
  clock: StudyCalendar,
  yearOfFile: number | null,
): ReadingPlan | null {
  const calendar = calendars.find(({ id }) => id === reading.calendar);
  if (calendar === undefined) return null;
  const shares = calendarShares(calendar, clock);
  const sharesThen =
    yearOfFile === null || yearOfFile === clock.calendarYear
      ? shares
      : calendarShares(calendar, studyCalendar({ ...clock, calendarYear: yearOfFile }));
  return { name: calendar.name, sharesThen, shares, extend: reading.extend ?? false };
}

/** Asks whether the logger's clock is wrong where its figures follow the plan better when moved; null otherwise. */
export function askClockOffset(known: Float64Array, plan: ReadingPlan): Question | null {
  const found = clockOffset(known, plan.sharesThen);
  if (found === null) return null;
  const hours = (value: number) => `${value > 0 ? "+" : "−"}${Math.abs(value)} h`;
  return {
    code: "DEMAND_CLOCK_OFFSET",
    sentence: `The figures follow the calendar "${plan.name}" best when their times are moved by ${hours(found.move_h)} (correlation ${found.correlation.toFixed(2)}, and ${found.asItStands.toFixed(2)} as they stand). Was the logger's clock wrong, or the plan another one? A clock in civil time read as standard time does the same by one hour in summer.`,
    field: "clockOffset_h",
    choices: [
      { value: "0", sentence: "leave the times as they stand" },
      { value: String(found.move_h), sentence: `move all times by ${hours(found.move_h)}` },
    ],
    taken: "0",
  };
}
