import { monthNames } from "../core/calendar.ts";
import type { CalendarFigures } from "../core/demand/calendar-figures.ts";

/** What a calendar comes to in the study's year, in sentences. */
export function calendarSentences(
  figures: CalendarFigures,
  calendarYear: number,
  number: (value: number) => string,
): string[] {
  const { full_h, highestShare, idle_h, closed_days, clockChanges } = figures;
  const percent = number(Math.round(1000 * highestShare) / 10);
  const days = closed_days === 1 ? "One day is closed" : `${number(closed_days)} days are closed`;
  return [
    `In ${calendarYear} it draws as much as ${number(Math.round(full_h))} hours at the full level, at most ${percent} % of it in an hour and nothing in ${number(idle_h)} hours. ${closed_days === 0 ? "No day is closed" : days} by a shut-down or a holiday.`,
    clockChanges.length === 0
      ? "The factory’s clock does not change in the year."
      : `The factory’s clock changes on ${clockChanges.map(({ date, hours }) => `${dateWords(date)}, a day of ${number(hours)} hours`).join(", and on ")}; the picture keeps standard time, so a shift moves in it on these days.`,
  ];
}

function dateWords(monthDay: string): string {
  return `${Number(monthDay.slice(3, 5))} ${monthNames[Number(monthDay.slice(0, 2)) - 1]}`;
}
