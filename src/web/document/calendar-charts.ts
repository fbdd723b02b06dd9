import { type Chart, type ChartFrame, carpet, plainText } from "../../charts/index.ts";
import { isTimeZone, studyCalendar } from "../../core/calendar.ts";
import { calendarFigures } from "../../core/demand/calendar-figures.ts";
import { calendarShares } from "../../core/demand/calendar-shares.ts";
import { checkCalendars } from "../../core/study/checks/calendars.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { calendarSentences } from "../../present/calendar-words.ts";
import type { ChartView } from "./document-charts.ts";

export interface CalendarView {
  readonly sentences: readonly string[];
  readonly charts: readonly ChartView[];
}

type Show = (prefix: string, draw: (frame: ChartFrame) => Chart, title?: string) => ChartView;

/** Each calendar as a carpet of its year with its figures, by id; needs no weather. Empty while they are at fault. */
export function calendarViews(study: Study, show: Show): Readonly<Record<string, CalendarView>> {
  if (study.calendars.length === 0 || !isTimeZone(study.site.timeZone)) return {};
  if (checkCalendars(study).length > 0) return {};
  const clock = studyCalendar(study.site);
  const { number } = plainText(study.money.locale ?? "en", study.money.currency);
  return Object.fromEntries(
    study.calendars.map((calendar) => {
      const values = calendarShares(calendar, clock).map((share) => 100 * share);
      const data = { name: calendar.name, values, unit: "%", scale: "load" as const };
      const title = `When does the factory work by “${calendar.name}”?`;
      return [
        calendar.id,
        {
          sentences: calendarSentences(calendarFigures(calendar, clock), study.site.calendarYear, (value) =>
            number(value, 4),
          ),
          charts: [show(`calendar-${calendar.id}`, (frame) => carpet(data, frame), title)],
        },
      ];
    }),
  );
}
