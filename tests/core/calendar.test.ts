import { DateTime } from "luxon";
import { describe, expect, it } from "vitest";
import {
  type Clock,
  civilLabel,
  hourIndex,
  hourStart_ms,
  isTimeZone,
  monthLength_days,
  studyCalendar,
} from "../../src/core/calendar.ts";

// Luxon is the referee of every hour; dates of the clock changes are those of the zones' own law.
const clocks: readonly Clock[] = [
  { utcOffset_h: 1, timeZone: "Europe/Madrid", calendarYear: 2025 },
  { utcOffset_h: -7, timeZone: "America/Denver", calendarYear: 2024 },
  { utcOffset_h: -4, timeZone: "America/Santiago", calendarYear: 2024 },
  { utcOffset_h: 10, timeZone: "Australia/Sydney", calendarYear: 2025 },
  { utcOffset_h: 10.5, timeZone: "Australia/Lord_Howe", calendarYear: 2025 },
  { utcOffset_h: 5.5, timeZone: "Asia/Kolkata", calendarYear: 2024 },
  { utcOffset_h: 5.75, timeZone: "Asia/Kathmandu", calendarYear: 2023 },
  { utcOffset_h: 3, timeZone: "Etc/GMT-3", calendarYear: 2026 },
];

describe("studyCalendar(clock)", () => {
  it.each(clocks.map((clock) => [clock.timeZone, clock] as const))(
    "keeps the wall clock of %s hour by hour",
    (_, clock) => {
      const calendar = studyCalendar(clock);
      const standard = `UTC${clock.utcOffset_h < 0 ? "-" : "+"}${Math.floor(Math.abs(clock.utcOffset_h))}:${String((Math.abs(clock.utcOffset_h) % 1) * 60).padStart(2, "0")}`;
      let at = DateTime.fromObject({ year: clock.calendarYear, month: 1, day: 1 }, { zone: standard });
      for (let index = 0; index < 8760; index += 1) {
        if (at.month === 2 && at.day === 29) at = at.plus({ days: 1 });
        const wall = at.setZone(clock.timeZone);
        const ours = [
          hourStart_ms(clock, index),
          ...[calendar.month, calendar.day, calendar.hour].map((field) => field[index]),
          ...[calendar.civilMonth, calendar.civilDay, calendar.civilHour].map((field) => field[index]),
          calendar.civilWeekday[index],
          calendar.civilOffset_min[index],
        ];
        const luxon = [
          at.toMillis(),
          at.month,
          at.day,
          at.hour,
          wall.month,
          wall.day,
          wall.hour,
          wall.weekday,
          wall.offset,
        ];
        if (ours.some((value, field) => value !== luxon[field]))
          expect({ index, ours }).toEqual({ index, ours: luxon });
        at = at.plus({ hours: 1 });
      }
      expect(at.year).toBe(clock.calendarYear + 1);
    },
  );

  // Directive 2000/84/EC: the last Sundays of March and October, at 01:00 UTC.
  it("leaves out 02:00 on 30 March and doubles 02:00 on 26 October 2025 in Madrid", () => {
    const { civilHour } = studyCalendar(clocks[0]);
    const march = hourIndex(3, 30, 0);
    expect([...civilHour.slice(march, march + 4)]).toEqual([0, 1, 3, 4]);
    const october = hourIndex(10, 25, 23); // standard time; the wall clock is an hour ahead
    expect([...civilHour.slice(october, october + 4)]).toEqual([0, 1, 2, 2]);
  });

  it("wraps one hour at New Year where summer time lasts over it", () => {
    const { civilHour, civilMonth, civilDay, civilWeekday } = studyCalendar(clocks[3]);
    expect([civilMonth[0], civilDay[0], civilHour[0]]).toEqual([1, 1, 1]);
    expect([civilMonth[8759], civilDay[8759], civilHour[8759]]).toEqual([1, 1, 0]);
    expect(civilWeekday[8759]).toBe(4); // 1 January 2026 is a Thursday
  });

  it("leaves out 29 February and keeps the weekdays after it", () => {
    const { civilMonth, civilDay, civilWeekday } = studyCalendar(clocks[5]);
    const leapDays = civilMonth.filter((month, i) => month === 2 && civilDay[i] === 29);
    expect(leapDays.length).toBe(0);
    expect(civilWeekday[hourIndex(2, 28, 12)]).toBe(3); // Wednesday 28 February 2024
    expect(civilWeekday[hourIndex(3, 1, 12)]).toBe(5); // Friday 1 March 2024
    expect(civilWeekday[8759]).toBe(2); // Tuesday 31 December 2024
  });

  it("refuses an unknown zone", () => {
    expect(isTimeZone("Europe/Madrid")).toBe(true);
    expect(isTimeZone("Ombrel/Saltmarrow")).toBe(false);
    expect(() => studyCalendar({ ...clocks[0], timeZone: "Ombrel/Saltmarrow" })).toThrow(RangeError);
  });
});

describe("hourIndex(month, day, hour)", () => {
  it("counts a year of 365 days without gap", () => {
    let expected = 0;
    for (let month = 1; month <= 12; month += 1)
      for (let day = 1; day <= monthLength_days(month); day += 1)
        for (let hour = 0; hour < 24; hour += 1) {
          if (hourIndex(month, day, hour) !== expected) expect(hourIndex(month, day, hour)).toBe(expected);
          expected += 1;
        }
    expect(expected).toBe(8760);
  });
});

describe("civilLabel(calendar, index)", () => {
  it("tells the two hours of the same name in autumn apart", () => {
    const calendar = studyCalendar(clocks[0]);
    const october = hourIndex(10, 26, 2); // 01:00 UTC, when the clock goes back
    expect(civilLabel(calendar, october)).toBe("2025-10-26T02:00+01:00");
    expect(civilLabel(calendar, october - 1)).toBe("2025-10-26T02:00+02:00");
    expect(civilLabel(studyCalendar(clocks[5]), 0)).toBe("2024-01-01T00:00+05:30");
  });
});
