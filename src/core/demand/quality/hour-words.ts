import { monthLength_days } from "../../calendar.ts";

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** Start of an hour of the study year in standard time, e.g. "3 Feb 07:00". */
export function hourWords(index: number): string {
  let day = Math.floor(index / 24);
  let month = 1;
  while (day >= monthLength_days(month)) {
    day -= monthLength_days(month);
    month += 1;
  }
  return `${day + 1} ${months[month - 1]} ${String(index % 24).padStart(2, "0")}:00`;
}

/** A number for a sentence: up to four significant digits, no exponent below a billion. */
export function numberWords(value: number): string {
  const size = Math.abs(value);
  if (size >= 1000 && size < 1e9) return String(Math.round(value));
  return String(Number(value.toPrecision(4)));
}
