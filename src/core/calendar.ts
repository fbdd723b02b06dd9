import { DateTime, FixedOffsetZone, IANAZone } from "luxon";
import { hoursPerYear } from "./series.ts";

export const monthNames = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** What a study says of its clock. */
export interface Clock {
  readonly utcOffset_h: number;
  readonly timeZone: string;
  readonly calendarYear: number;
}

/**
 * The study year hour by hour. Index 0 is 1 January 00:00–01:00 standard time of `calendarYear`;
 * 29 February is left out. The civil fields are the factory's wall clock at the start of the hour
 * (an hour that begins at half past, in zones off by half an hour, keeps the civil hour it began in).
 */
export interface StudyCalendar extends Clock {
  readonly month: Uint8Array;
  readonly day: Uint8Array;
  readonly hour: Uint8Array;
  readonly civilMonth: Uint8Array;
  readonly civilDay: Uint8Array;
  readonly civilHour: Uint8Array;
  /** 1 Monday to 7 Sunday. */
  readonly civilWeekday: Uint8Array;
  /** Minutes of civil time ahead of UTC. */
  readonly civilOffset_min: Int16Array;
}

const daysInMonth = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const firstDayOfMonth = daysInMonth.map((_, month) =>
  daysInMonth.slice(0, month).reduce((total, days) => total + days, 0),
);

/** Hour index of a date in a year of 365 days; `month` and `day` from 1, `hour` from 0. */
export function hourIndex(month: number, day: number, hour: number): number {
  return (firstDayOfMonth[month - 1]! + day - 1) * 24 + hour;
}

export function monthLength_days(month: number): number {
  return daysInMonth[month - 1]!;
}

export function isTimeZone(name: string): boolean {
  return IANAZone.isValidZone(name);
}

const isLeap = (year: number) => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/** Milliseconds since 1970 at the start of hour `index`. */
export function hourStart_ms(clock: Clock, index: number): number {
  const day = Math.floor(index / 24);
  const leapDay = isLeap(clock.calendarYear) && day >= firstDayOfMonth[2]! ? 1 : 0;
  const yearStart = Date.UTC(clock.calendarYear, 0, 1) - clock.utcOffset_h * 3_600_000;
  return yearStart + (index + leapDay * 24) * 3_600_000;
}

/** Minutes of civil time ahead of UTC at an instant. @throws RangeError where the time zone is unknown */
export function offsetAt_min({ timeZone }: Clock, instant_ms: number): number {
  const zone = IANAZone.create(timeZone);
  if (!zone.isValid) throw new RangeError(`unknown time zone ${timeZone}`);
  return zone.offset(instant_ms);
}

/** @throws RangeError where the time zone is unknown; check with isTimeZone first. */
export function studyCalendar(clock: Clock): StudyCalendar {
  const zone = IANAZone.create(clock.timeZone);
  if (!zone.isValid) throw new RangeError(`unknown time zone ${clock.timeZone}`);
  const bytes = () => new Uint8Array(hoursPerYear);
  const calendar = {
    utcOffset_h: clock.utcOffset_h,
    timeZone: clock.timeZone,
    calendarYear: clock.calendarYear,
    month: bytes(),
    day: bytes(),
    hour: bytes(),
    civilMonth: bytes(),
    civilDay: bytes(),
    civilHour: bytes(),
    civilWeekday: bytes(),
    civilOffset_min: new Int16Array(hoursPerYear),
  };
  let month = 1;
  for (let index = 0; index < hoursPerYear; index += 1) {
    const dayOfYear = Math.floor(index / 24);
    while (month < 12 && dayOfYear >= firstDayOfMonth[month]!) month += 1;
    calendar.month[index] = month;
    calendar.day[index] = dayOfYear - firstDayOfMonth[month - 1]! + 1;
    calendar.hour[index] = index % 24;

    const start = hourStart_ms(clock, index);
    const offset_min = zone.offset(start);
    // Reading the shifted instant as UTC gives the wall clock without a DateTime for each hour.
    const wall = new Date(start + offset_min * 60_000);
    calendar.civilOffset_min[index] = offset_min;
    calendar.civilMonth[index] = wall.getUTCMonth() + 1;
    calendar.civilDay[index] = wall.getUTCDate();
    calendar.civilHour[index] = wall.getUTCHours();
    calendar.civilWeekday[index] = wall.getUTCDay() === 0 ? 7 : wall.getUTCDay();
  }
  return calendar;
}

/** Start of the hour as ISO 8601 in the site's civil time, with its offset. */
export function civilLabel(calendar: StudyCalendar, index: number): string {
  const zone = FixedOffsetZone.instance(calendar.civilOffset_min[index]!);
  const start = DateTime.fromMillis(hourStart_ms(calendar, index), { zone });
  return start.toISO({ suppressSeconds: true, suppressMilliseconds: true }) ?? "";
}
