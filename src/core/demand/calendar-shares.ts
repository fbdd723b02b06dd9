import { hourStart_ms, offsetAt_min, type StudyCalendar } from "../calendar.ts";
import { hoursPerYear } from "../series.ts";
import type { Calendar, Shift } from "../study/schema/study.ts";
import { type DayReader, dayBefore, dayReader } from "./calendar-days.ts";
import { withStartUp } from "./start-up.ts";

const perHour = 4;

/**
 * A calendar as 8760 shares of a level, each the mean of its hour's four quarters.
 *
 * The factory's clock decides: an hour that daylight saving leaves out is never worked, one that it
 * doubles is worked twice, so that a night shift across the change lasts an hour less or more. A shift
 * past midnight counts, with its factor, to the day on which it starts. Shares may pass 1 by factors.
 */
export function calendarShares(calendar: Calendar, clock: StudyCalendar): Float64Array {
  const quarters = quarterShares(calendar, clock);
  const started = calendar.ramp === undefined ? quarters : withStartUp(quarters, calendar.ramp);
  return hourMeans(started.share);
}

/** Quarter hours of the year: what is drawn, and whether that is no more than at rest. */
export interface QuarterShares {
  readonly share: Float64Array;
  readonly rests: Uint8Array;
}

function quarterShares(calendar: Calendar, clock: StudyCalendar): QuarterShares {
  const dayOf = dayReader(calendar);
  const shiftsOf = shiftsByDay(calendar);
  const share = new Float64Array(hoursPerYear * perHour);
  const rests = new Uint8Array(share.length);
  for (let index = 0; index < share.length; index += 1) {
    const moment = momentOf(clock, index);
    const drawn = shareAt(calendar, dayOf, shiftsOf, moment);
    share[index] = drawn.share;
    rests[index] = drawn.rests ? 1 : 0;
  }
  return { share, rests };
}

interface Moment {
  readonly month: number;
  readonly day: number;
  readonly weekday: number;
  /** Since midnight on the wall clock. */
  readonly minute: number;
}

/** The wall clock at a quarter's start. Zones change on quarters of an hour, so one look a quarter is enough. */
function momentOf(clock: StudyCalendar, quarter: number): Moment {
  const index = Math.floor(quarter / perHour);
  const instant = hourStart_ms(clock, index) + (quarter % perHour) * 900_000;
  const own = clock.civilOffset_min[index];
  const next = clock.civilOffset_min[Math.min(index + 1, hoursPerYear - 1)];
  const offset_min = own === next ? own : offsetAt_min(clock, instant);
  const wall = new Date(instant + offset_min * 60_000);
  return {
    month: wall.getUTCMonth() + 1,
    day: wall.getUTCDate(),
    weekday: wall.getUTCDay() === 0 ? 7 : wall.getUTCDay(),
    minute: wall.getUTCHours() * 60 + wall.getUTCMinutes(),
  };
}

interface Drawn {
  readonly share: number;
  readonly rests: boolean;
}

function shareAt(calendar: Calendar, dayOf: DayReader, shiftsOf: ShiftsByDay, moment: Moment): Drawn {
  const { month, day, weekday, minute } = moment;
  const today = dayOf(month, day, weekday);
  const { week } = calendar;
  const closed = { share: calendar.closedShare ?? 0, rests: true };
  if (week.by === "hours") {
    if (today.runsAs === null) return closed;
    const shares = today.runsAs === 6 ? week.saturday : today.runsAs === 7 ? week.sunday : week.weekday;
    const share = shares[Math.floor(minute / 60)]! * today.factor;
    return { share, rests: share === 0 };
  }
  // A shift of yesterday that runs past midnight works on, whatever today is.
  const before = dayBefore(month, day);
  const yesterday = dayOf(before.month, before.day, weekday === 1 ? 7 : weekday - 1);
  const late =
    yesterday.runsAs === null
      ? undefined
      : shiftsOf[yesterday.runsAs]!.find((shift) => minute + minutesPerDay < end_min(shift));
  if (late !== undefined) return { share: late.share * yesterday.factor, rests: false };
  if (today.runsAs === null) return closed;
  const shift = shiftsOf[today.runsAs]!.find((one) => minute >= one.starts_h * 60 && minute < end_min(one));
  if (shift !== undefined) return { share: shift.share * today.factor, rests: false };
  return { share: week.between * today.factor, rests: true };
}

const minutesPerDay = 24 * 60;

/** Minutes from the midnight before its start to its end; more than a day where it runs past the next. */
function end_min({ starts_h, ends_h }: Shift): number {
  return ends_h > starts_h ? ends_h * 60 : ends_h * 60 + minutesPerDay;
}

type ShiftsByDay = readonly (readonly Shift[])[];

/** Shifts by the weekday on which they start; entry 0 is empty. */
function shiftsByDay({ week }: Calendar): ShiftsByDay {
  const shifts = week.by === "shifts" ? week.shifts : [];
  return Array.from({ length: 8 }, (_, weekday) =>
    shifts.filter((shift) => shift.weekdays.includes(weekday)),
  );
}

function hourMeans(quarters: Float64Array): Float64Array {
  return Float64Array.from({ length: hoursPerYear }, (_, index) => {
    const at = index * perHour;
    const [a, b, c, d] = [quarters[at]!, quarters[at + 1]!, quarters[at + 2]!, quarters[at + 3]!];
    // Four equal quarters give their share itself, without the rounding of a mean.
    return a === b && b === c && c === d ? a : (a + b + c + d) / perHour;
  });
}
