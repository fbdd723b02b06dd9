import { hourStart_ms, type StudyCalendar } from "../calendar.ts";
import type { Calendar } from "../study/schema/study.ts";
import { dayReader } from "./calendar-days.ts";
import { calendarShares } from "./calendar-shares.ts";
import { civilDays } from "./loads/civil-days.ts";

/** A calendar's year in figures. */
export interface CalendarFigures {
  /** Hours at the level that draw as much as the year does. */
  readonly full_h: number;
  readonly highestShare: number;
  /** Hours in which nothing is drawn. */
  readonly idle_h: number;
  /** Dates closed by a shut-down or a holiday. */
  readonly closed_days: number;
  /** Days on which the clock changes, as month-day with the hours that the day has. */
  readonly clockChanges: readonly { readonly date: string; readonly hours: number }[];
}

/** What a calendar comes to in the study's year. */
export function calendarFigures(calendar: Calendar, clock: StudyCalendar): CalendarFigures {
  const shares = calendarShares(calendar, clock);
  const dayOf = dayReader(calendar);
  const days = civilDays(clock);
  return {
    full_h: shares.reduce((total, share) => total + share, 0),
    highestShare: shares.reduce((high, share) => Math.max(high, share), 0),
    idle_h: shares.reduce((count, share) => count + (share === 0 ? 1 : 0), 0),
    closed_days: days.filter(({ month, day, weekday }) => dayOf(month, day, weekday).runsAs === null).length,
    clockChanges: changesOf(clock),
  };
}

/**
 * Days within which the civil offset changes, with the hours that they have: a half-hour zone's step is
 * half an hour. Before the step forward and after the step back the clock shows the same date, that of the
 * smaller offset.
 */
function changesOf(clock: StudyCalendar): { date: string; hours: number }[] {
  const { civilOffset_min } = clock;
  const found: { date: string; hours: number }[] = [];
  for (let index = 1; index < civilOffset_min.length; index += 1) {
    const [before, after] = [civilOffset_min[index - 1], civilOffset_min[index]];
    if (before === after) continue;
    const wall = new Date(hourStart_ms(clock, index) + Math.min(before, after) * 60_000);
    const two = (value: number) => String(value).padStart(2, "0");
    found.push({
      date: `${two(wall.getUTCMonth() + 1)}-${two(wall.getUTCDate())}`,
      hours: 24 - (after - before) / 60,
    });
  }
  return found;
}
