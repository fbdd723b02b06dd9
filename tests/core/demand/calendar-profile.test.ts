import fc from "fast-check";
import { DateTime } from "luxon";
import { describe, expect, it } from "vitest";
import { hourStart_ms } from "../../../src/core/calendar.ts";
import { profileHours } from "../../../src/core/demand/calendar-profile.ts";
import { isClosedDay } from "../../../src/core/month-day.ts";
import { sum } from "../../../src/core/series.ts";
import type { Calendar, Week } from "../../../src/core/study/schema/study.ts";
import { expectClose } from "../../support/close.ts";
import { calendarOf, madridClock } from "../../support/load-inputs.ts";

type Hours = Extract<Week, { by: "hours" }>;
type Parts = Partial<Omit<Hours, "by">> & Pick<Partial<Calendar>, "months" | "closed">;

const flat = (share: number) => new Array<number>(24).fill(share);
const hoursOf = ({ months, closed, ...days }: Parts, clock = madridClock, level = 1) => {
  const calendar: Calendar = {
    id: "days",
    name: "Days",
    week: { by: "hours", weekday: flat(1), saturday: flat(1), sunday: flat(1), ...days },
    ...(months === undefined ? {} : { months }),
    ...(closed === undefined ? {} : { closed }),
  };
  return profileHours({ from: "calendar", level, calendar: "days" }, [calendar], calendarOf(clock));
};

describe("profileHours(profile, calendars, clock)", () => {
  it("gives a constant all year", () => {
    const hours = profileHours({ from: "constant", level: 12.5 }, [], calendarOf(madridClock));
    expect(hours.length).toBe(8760);
    expect(sum(hours)).toBe(12.5 * 8760);
  });

  // Counted on a calendar of 2025: 261 weekdays, 52 Saturdays, 52 Sundays.
  it("tells weekdays, Saturdays and Sundays apart", () => {
    const zone = { utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2025 };
    const days = (parts: Parts) =>
      sum(hoursOf({ weekday: flat(0), saturday: flat(0), sunday: flat(0), ...parts }, zone)) / 24;
    expect(days({ weekday: flat(1) })).toBe(261);
    expect(days({ saturday: flat(1) })).toBe(52);
    expect(days({ sunday: flat(1) })).toBe(52);
  });

  it("draws a shift at the factory's hours, summer and winter (Luxon as referee)", () => {
    const shift = flat(0).map((_, hour) => (hour >= 6 && hour < 14 ? 1 : 0));
    const hours = hoursOf({ weekday: shift, saturday: flat(0), sunday: flat(0) });
    for (let index = 0; index < 8760; index += 1) {
      const wall = DateTime.fromMillis(hourStart_ms(madridClock, index), { zone: "Europe/Madrid" });
      const works = wall.weekday <= 5 && wall.hour >= 6 && wall.hour < 14;
      expect(hours[index]).toBe(works ? 1 : 0);
    }
  });

  // Daylight saving in the European Union, Directive 2000/84/EC: 30 March and 26 October in 2025.
  it("never draws the hour that spring leaves out and draws the doubled one of autumn twice", () => {
    const at2 = flat(0).map((_, hour) => (hour === 2 ? 1 : 0));
    const hours = hoursOf({
      weekday: at2,
      saturday: at2,
      sunday: at2,
      months: [0, 0, 1, 0, 0, 0, 0, 0, 0, 1, 0, 0],
    });
    const cal = calendarOf(madridClock);
    const drawn = (month: number) =>
      hours.filter((_, i) => cal.civilMonth[i] === month).reduce((a, b) => a + b, 0);
    expect(drawn(3)).toBe(30);
    expect(drawn(10)).toBe(32);
  });

  it("closes over New Year, both ends included", () => {
    const closed = [{ from: "12-24", to: "01-06" }];
    expect(isClosedDay(closed, 12, 24)).toBe(true);
    expect(isClosedDay(closed, 1, 6)).toBe(true);
    expect(isClosedDay(closed, 1, 7)).toBe(false);
    expect(isClosedDay(closed, 12, 23)).toBe(false);
    // 8 days of December and 6 of January, worked by hand.
    expect(sum(hoursOf({ closed }))).toBe(8760 - 14 * 24);
  });

  it("is proportional to its level, and month factors weigh whole months", () => {
    const factors = fc.array(fc.double({ min: 0, max: 10, noNaN: true }), { minLength: 12, maxLength: 12 });
    const utc = { utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2024 };
    const days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    fc.assert(
      fc.property(factors, fc.double({ min: 0, max: 1e4, noNaN: true }), (months, level) => {
        const expected =
          level * days.reduce((total, length, month) => total + length * 24 * months[month], 0);
        expectClose(sum(hoursOf({ months }, utc, level)), expected, 1e-9);
      }),
      { numRuns: 20 },
    );
  });
});
