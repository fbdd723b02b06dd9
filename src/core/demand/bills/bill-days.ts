import { DateTime } from "luxon";
import type { StudyCalendar } from "../../calendar.ts";
import type { Bill } from "../../study/schema/profile.ts";
import { civilDays } from "../loads/civil-days.ts";

/** A stretch of the study's year: a bill's, or one that no bill covers. */
export interface BilledDays {
  /** Index of the bill; null for days that no bill covers. */
  readonly bill: number | null;
  /** First and last day, as YYYY-MM-DD of the bill, or MM-DD of the study's year. */
  readonly from: string;
  readonly to: string;
  readonly days: number;
  /** Hour indices of the study's year. */
  readonly hours: readonly number[];
}

/** The date, or null where there is none such, as 31 April. */
export function billDate(text: string): DateTime | null {
  const date = DateTime.fromISO(text, { zone: "utc" });
  return date.isValid ? date : null;
}

/** Days of the year, 0 to 364, that a bill covers; 29 February, which the study's year lacks, is passed over. */
export function daysOfBill({ from, to }: Pick<Bill, "from" | "to">): number[] {
  const [first, last] = [billDate(from), billDate(to)];
  if (first === null || last === null) return [];
  const days: number[] = [];
  for (let date = first; date <= last && days.length <= 366; date = date.plus({ days: 1 })) {
    if (date.month === 2 && date.day === 29) continue;
    // 2001 has no 29 February, so its days are numbered as the study's.
    days.push(DateTime.utc(2001, date.month, date.day).ordinal - 1);
  }
  return days;
}

/**
 * The study's year cut into the bills, in their order, and the stretches between them. Days are those of
 * the factory's clock and the year is a ring; each of its 8760 hours is in exactly one stretch. The bills
 * must have been checked: real dates, no day billed twice.
 */
export function billedDays(bills: readonly Bill[], clock: StudyCalendar): BilledDays[] {
  const calendarDays = civilDays(clock);
  const owner = new Int32Array(365).fill(-1);
  const billed = bills.map((bill, index): BilledDays => {
    const days = daysOfBill(bill);
    for (const day of days) owner[day] = index;
    return {
      bill: index,
      from: bill.from,
      to: bill.to,
      days: days.length,
      hours: days.flatMap((day) => calendarDays[day]!.hours),
    };
  });
  return [...billed, ...gapsOf(owner).map((days) => gap(days, calendarDays))];
}

/** Stretches of days without an owner, a stretch over New Year being one. */
function gapsOf(owner: Int32Array): number[][] {
  const first = owner.findIndex((index) => index >= 0);
  if (first < 0) return [];
  const gaps: number[][] = [];
  for (let step = 0; step < owner.length; step += 1) {
    const day = (first + step) % owner.length;
    if (owner[day]! >= 0) continue;
    const before = (day + owner.length - 1) % owner.length;
    if (owner[before]! < 0 && gaps.length > 0) gaps.at(-1)!.push(day);
    else gaps.push([day]);
  }
  return gaps;
}

function gap(days: readonly number[], calendarDays: ReturnType<typeof civilDays>): BilledDays {
  const name = (day: number) => {
    const { month, day: date } = calendarDays[day]!;
    return `${String(month).padStart(2, "0")}-${String(date).padStart(2, "0")}`;
  };
  return {
    bill: null,
    from: name(days[0]!),
    to: name(days.at(-1)!),
    days: days.length,
    hours: days.flatMap((day) => calendarDays[day]!.hours),
  };
}
