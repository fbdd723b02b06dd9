import { hourIndex, monthNames } from "../core/calendar.ts";

export const shortMonth = (month: number): string => monthNames[month - 1]!.slice(0, 3);

export const weekdayNames = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"] as const;

/** First hour of each month and, last, the end of the year: 13 numbers. */
export const monthStarts: readonly number[] = [
  ...monthNames.map((_, month) => hourIndex(month + 1, 1, 0)),
  8760,
];

/** Month from 1 of an hour of the study year. */
export function monthOfHour(hour: number): number {
  let month = 1;
  while (month < 12 && hour >= monthStarts[month]!) month += 1;
  return month;
}

/** E.g. "14 May, 12:00" for the hour that begins then. */
export function hourName(hour: number): string {
  const month = monthOfHour(hour);
  const day = Math.floor((hour - monthStarts[month - 1]!) / 24) + 1;
  return `${day} ${monthNames[month - 1]}, ${hour % 24}:00`;
}
