import fc from "fast-check";
import { DateTime } from "luxon";
import { describe, expect, it } from "vitest";
import { type Clock, hourIndex, hourStart_ms } from "../../../src/core/calendar.ts";
import { calendarFigures } from "../../../src/core/demand/calendar-figures.ts";
import { calendarShares } from "../../../src/core/demand/calendar-shares.ts";
import { sum } from "../../../src/core/series.ts";
import type { Calendar, Shift } from "../../../src/core/study/schema/study.ts";
import { expectClose } from "../../support/close.ts";
import { calendarOf, madridClock } from "../../support/load-inputs.ts";

const everyDay = [1, 2, 3, 4, 5, 6, 7];
const shift = (starts_h: number, ends_h: number, weekdays = everyDay, share = 1): Shift => ({
  name: `${starts_h} to ${ends_h}`,
  weekdays,
  starts_h,
  ends_h,
  share,
});
const byShifts = (shifts: Shift[], more: Partial<Calendar> = {}): Calendar => ({
  id: "days",
  name: "Days",
  week: { by: "shifts", shifts, between: 0 },
  ...more,
});
const sharesOf = (calendar: Calendar, clock = madridClock) => calendarShares(calendar, calendarOf(clock));

/*
 * Zones of the IANA data base, read by Luxon: north, south, half and three-quarter hours, a clock that
 * changes by half an hour, one that changes at midnight. In 2025 and 2026.
 */
const clocks: readonly Clock[] = [
  { utcOffset_h: 1, timeZone: "Europe/Madrid", calendarYear: 2025 },
  { utcOffset_h: -5, timeZone: "America/New_York", calendarYear: 2026 },
  { utcOffset_h: 9.5, timeZone: "Australia/Adelaide", calendarYear: 2025 },
  { utcOffset_h: 10.5, timeZone: "Australia/Lord_Howe", calendarYear: 2026 },
  { utcOffset_h: -4, timeZone: "America/Santiago", calendarYear: 2025 },
  { utcOffset_h: 5.5, timeZone: "Asia/Kolkata", calendarYear: 2025 },
  { utcOffset_h: 5.75, timeZone: "Asia/Kathmandu", calendarYear: 2025 },
];

/** Hours worked in each hour of the year, by intervals of time that Luxon makes of wall clock times. */
function byIntervals(shifts: readonly Shift[], clock: Clock): Float64Array {
  const { timeZone: zone, calendarYear } = clock;
  const worked = new Float64Array(8760);
  const first_ms = hourStart_ms(clock, 0);
  for (
    let date = DateTime.fromObject({ year: calendarYear - 1, month: 12, day: 30 }, { zone });
    date.year <= calendarYear || date.month === 1;
    date = date.plus({ days: 1 })
  ) {
    if (date.year > calendarYear && date.day > 2) break;
    for (const one of shifts.filter(({ weekdays }) => weekdays.includes(date.weekday))) {
      const from = date.set({ hour: Math.floor(one.starts_h), minute: (one.starts_h % 1) * 60 });
      const last = one.ends_h > one.starts_h ? date : date.plus({ days: 1 });
      const until = last.set({ hour: Math.floor(one.ends_h), minute: (one.ends_h % 1) * 60 });
      const [a, b] = [(from.toMillis() - first_ms) / 3.6e6, (until.toMillis() - first_ms) / 3.6e6];
      for (let hour = Math.max(0, Math.floor(a)); hour < Math.min(8760, Math.ceil(b)); hour += 1)
        worked[hour]! += one.share * (Math.min(b, hour + 1) - Math.max(a, hour));
    }
  }
  return worked;
}

describe("calendarShares(calendar, clock) by shifts", () => {
  it.each(clocks)(
    "works the hours of the factory's clock in $timeZone (Luxon's intervals as referee)",
    (clock) => {
      const workdays = [1, 2, 3, 4, 5];
      const shifts = [
        shift(6, 14, workdays),
        shift(14, 22.5, workdays, 0.8),
        shift(22.5, 6, [1, 2, 3, 4, 5, 6], 0.5),
        shift(8.25, 12.75, [6], 0.9),
        shift(7, 11, [7], 0.3),
      ];
      const shares = sharesOf(byShifts(shifts), clock);
      const referee = byIntervals(shifts, clock);
      for (let hour = 0; hour < 8760; hour += 1) expectClose(shares[hour]!, referee[hour]!, 1e-12);
    },
  );

  // Directive 2000/84/EC: 02:00 to 03:00 on 30 March, 03:00 to 02:00 on 26 October 2025.
  it("a night shift lasts 7 hours into the spring change and 9 into that of autumn", () => {
    const night = sharesOf(byShifts([shift(22, 6)]));
    const between = (from: number, until: number) => sum(night.slice(from, until));
    expect(between(hourIndex(3, 29, 12), hourIndex(3, 30, 12))).toBe(7);
    expect(between(hourIndex(10, 25, 12), hourIndex(10, 26, 12))).toBe(9);
    expect(between(hourIndex(6, 10, 12), hourIndex(6, 11, 12))).toBe(8);
  });

  // Lord Howe moves by half an hour: 02:00 to 01:30 on 5 April, 02:00 to 02:30 on 4 October 2026.
  it("a night shift lasts half an hour more or less where the clock moves by half an hour", () => {
    const clock = clocks[3]!;
    const night = sharesOf(byShifts([shift(22, 6)]), clock);
    const between = (from: number, until: number) => sum(night.slice(from, until));
    expect(between(hourIndex(4, 4, 12), hourIndex(4, 5, 12))).toBe(8.5);
    expect(between(hourIndex(10, 3, 12), hourIndex(10, 4, 12))).toBe(7.5);
  });

  it("a night shift counts to the day on which it starts", () => {
    // In 2025, 6 January is a Monday; standard time.
    const shares = sharesOf(byShifts([shift(22, 6, [1])]));
    expect(sum(shares.slice(hourIndex(1, 6, 0), hourIndex(1, 6, 22)))).toBe(0);
    expect(sum(shares.slice(hourIndex(1, 6, 22), hourIndex(1, 7, 6)))).toBe(8);
    const holiday = sharesOf(
      byShifts([shift(22, 6)], { holidays: [{ name: "Day off", date: "05-01", runsAs: "closed" }] }),
      { utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2025 },
    );
    // The shift of 30 April works on into the holiday; that of the holiday does not start.
    expect(sum(holiday.slice(hourIndex(5, 1, 0), hourIndex(5, 1, 6)))).toBe(6);
    expect(sum(holiday.slice(hourIndex(5, 1, 6), hourIndex(5, 2, 22)))).toBe(0);
  });

  it("draws the share between the shifts on open days only, and the closed share on closed ones", () => {
    const utc = { utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2025 };
    const calendar = byShifts([shift(6, 14)], {
      closed: [{ from: "08-01", to: "08-14" }],
      closedShare: 0.05,
    });
    calendar.week = { by: "shifts", shifts: [shift(6, 14)], between: 0.25 };
    const shares = sharesOf(calendar, utc);
    expect(shares[hourIndex(7, 31, 5)]).toBe(0.25);
    expect(shares[hourIndex(7, 31, 6)]).toBe(1);
    expect(shares[hourIndex(8, 1, 6)]).toBe(0.05);
    expect(shares[hourIndex(8, 15, 6)]).toBe(1);
    expectClose(sum(shares), 351 * (8 + 16 * 0.25) + 14 * 24 * 0.05, 1e-12);
  });

  it("a full day's shift, whether from 0 to 24 or from 6 to 6, is every hour of the year", () => {
    for (const clock of clocks)
      for (const whole of [shift(0, 24), shift(6, 6)])
        expect(sum(sharesOf(byShifts([whole]), clock))).toBe(8760);
  });
});

describe("holidays, shut-downs and campaigns", () => {
  const utc = { utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2025 };
  const flat = (value: number) => new Array<number>(24).fill(value);
  const byHours = (more: Partial<Calendar> = {}): Calendar => ({
    id: "days",
    name: "Days",
    week: { by: "hours", weekday: flat(1), saturday: flat(0.5), sunday: flat(0.25) },
    ...more,
  });

  it("a holiday runs as a Saturday, as a Sunday or not at all", () => {
    // Thursdays of 2025.
    const holidays: Calendar["holidays"] = [
      { name: "A", date: "05-01", runsAs: "closed" },
      { name: "B", date: "05-08", runsAs: "saturday" },
      { name: "C", date: "05-15", runsAs: "sunday" },
    ];
    const shares = sharesOf(byHours({ holidays }), utc);
    const day = (date: number) => sum(shares.slice(hourIndex(5, date, 0), hourIndex(5, date, 24))) / 24;
    expect([1, 8, 15, 22].map(day)).toEqual([0, 0.5, 0.25, 1]);
  });

  it("a shut-down closes a holiday and a campaign too, and may run over New Year", () => {
    const shares = sharesOf(
      byHours({
        closed: [{ from: "12-24", to: "01-06" }],
        holidays: [{ name: "A", date: "12-26", runsAs: "saturday" }],
        campaigns: [{ name: "Harvest", from: "12-01", to: "01-31", factor: 2 }],
      }),
      utc,
    );
    expect(sum(shares.slice(hourIndex(12, 24, 0)))).toBe(0);
    expect(sum(shares.slice(0, hourIndex(1, 7, 0)))).toBe(0);
    // Tuesday 23 December and Tuesday 7 January.
    expect(shares[hourIndex(12, 23, 9)]).toBe(2);
    expect(shares[hourIndex(1, 7, 9)]).toBe(2);
  });

  it("a campaign's factor stands in place of the month's, on its own days", () => {
    const months = [1, 1, 1, 1, 1, 1, 1, 1, 0.5, 0.5, 1, 1];
    const shares = sharesOf(
      byHours({ months, campaigns: [{ name: "Harvest", from: "09-15", to: "10-10", factor: 3 }] }),
      utc,
    );
    // Friday 12 and Monday 15 September, Friday 10 and Monday 13 October 2025.
    expect(shares[hourIndex(9, 12, 9)]).toBe(0.5);
    expect(shares[hourIndex(9, 15, 9)]).toBe(3);
    expect(shares[hourIndex(10, 10, 9)]).toBe(3);
    expect(shares[hourIndex(10, 13, 9)]).toBe(0.5);
  });

  it("figures tell full hours, idle hours, closed days and the days on which the clock changes", () => {
    const figures = calendarFigures(
      byShifts([shift(6, 14)], { closed: [{ from: "12-25", to: "12-26" }] }),
      calendarOf(madridClock),
    );
    expect(figures).toEqual({
      full_h: 363 * 8,
      highestShare: 1,
      idle_h: 8760 - 363 * 8,
      closed_days: 2,
      clockChanges: [
        { date: "03-30", hours: 23 },
        { date: "10-26", hours: 25 },
      ],
    });
    // Chile's clock changes at midnight between Saturday and Sunday: 5 April and 6/7 September 2025.
    expect(calendarFigures(byShifts([shift(6, 14)]), calendarOf(clocks[4]!)).clockChanges).toEqual([
      { date: "04-05", hours: 25 },
      { date: "09-07", hours: 23 },
    ]);
    expect(calendarFigures(byShifts([shift(6, 14)]), calendarOf(clocks[3]!)).clockChanges).toEqual([
      { date: "04-05", hours: 24.5 },
      { date: "10-04", hours: 23.5 },
    ]);
  });
});

describe("start-up after a rest", () => {
  const utc = { utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2025 };
  const ramp = (afterIdle_h: number, lasts_h: number, startsAt: number) => ({
    afterIdle_h,
    lasts_h,
    startsAt,
  });

  it("moves in a straight line from its start to the full share, hour means of quarters", () => {
    const shares = sharesOf(byShifts([shift(6, 14)], { ramp: ramp(8, 2, 0) }), utc);
    // Mean of the line over its first and second hour: 1/4 and 3/4.
    expect([5, 6, 7, 8].map((hour) => shares[hourIndex(6, 10, hour)])).toEqual([0, 0.25, 0.75, 1]);
  });

  it("above 1 is a peak, and as much above as a slow start is below", () => {
    const plain = sharesOf(byShifts([shift(6, 14)]), utc);
    const slow = sharesOf(byShifts([shift(6, 14)], { ramp: ramp(8, 3, 0.5) }), utc);
    const peak = sharesOf(byShifts([shift(6, 14)], { ramp: ramp(8, 3, 1.5) }), utc);
    expectClose(sum(plain) - sum(slow), 365 * 3 * 0.25, 1e-12);
    expectClose(sum(peak) - sum(plain), 365 * 3 * 0.25, 1e-12);
  });

  it("comes only after a rest that is long enough: Mondays, of a five-day week", () => {
    const workdays = [1, 2, 3, 4, 5];
    const shares = sharesOf(byShifts([shift(6, 14, workdays)], { ramp: ramp(24, 1, 0) }), utc);
    // Monday 9 to Friday 13 June 2025.
    expect([9, 10, 11, 12, 13].map((day) => shares[hourIndex(6, day, 6)])).toEqual([0.5, 1, 1, 1, 1]);
  });

  it("counts a rest over New Year, and one at the share between the shifts", () => {
    const calendar: Calendar = {
      ...byShifts([], { ramp: ramp(12, 1, 0), closed: [{ from: "12-20", to: "12-31" }], closedShare: 0.1 }),
      week: { by: "shifts", shifts: [shift(2, 20)], between: 0.2 },
    };
    const shares = sharesOf(calendar, utc);
    expect(shares[1]).toBe(0.2);
    expect(shares[2]).toBe(0.5);
    expect(shares[24 + 2]).toBe(1);
  });

  it("never draws while at rest what it did not draw without, nor after its end (any ramp)", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 48 }),
        fc.integer({ min: 1, max: 12 }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (afterIdle_h, lasts_h, startsAt) => {
          const plain = sharesOf(byShifts([shift(4, 20, [1, 2, 3, 4, 5])]), utc);
          const started = sharesOf(
            byShifts([shift(4, 20, [1, 2, 3, 4, 5])], { ramp: ramp(afterIdle_h, lasts_h, startsAt) }),
            utc,
          );
          for (let hour = 0; hour < 8760; hour += 1) {
            if (plain[hour] === 0) expect(started[hour]).toBe(0);
            const since = (hour % 24) - 4;
            if (since >= lasts_h && since < 16) expect(started[hour]).toBe(plain[hour]);
          }
        },
      ),
      { numRuns: 10 },
    );
  });
});
