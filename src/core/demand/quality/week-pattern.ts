import type { StudyCalendar } from "../../calendar.ts";
import type { QualityFinding } from "./quality-report.ts";

const names = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;
/** A weekday counts as quiet where its mean lies below this share of the median weekday. */
const quietBelow = 0.85;

/**
 * Says where the quiet days of the week in a year of figures clash with the study's calendar. With
 * `fileYear` the figures keep month and day of that year, so the clash is the shift of weekdays
 * between the two years; without it, quiet days that touch neither Friday, Saturday nor Sunday are
 * remarked. Days are counted in standard time. A series without a week pattern yields nothing.
 */
export function weekPatternFindings(
  hourly: Float64Array,
  calendar: StudyCalendar,
  fileYear: number | null,
): QualityFinding[] {
  const studyMeans = weekdayMeans(hourly, calendar, calendar.calendarYear);
  if (fileYear !== null && fileYear !== calendar.calendarYear) {
    const shift_days = usualShift(calendar, fileYear);
    const ownQuiet = quietDays(weekdayMeans(hourly, calendar, fileYear));
    if (shift_days === 0 || ownQuiet.length === 0) return [];
    return [
      remark(
        `The file is of ${fileYear} and rests on ${list(ownQuiet)}; each value keeps its month and day, so in ${calendar.calendarYear} these quiet days fall on ${list(ownQuiet.map((day) => (day + shift_days) % 7))}: ${days(shift_days)} later in the week for most of the year. Set the calendar year to ${fileYear} (or a year with the same weekdays) if weekdays matter.`,
        shift_days,
      ),
    ];
  }
  const quiet = quietDays(studyMeans);
  if (quiet.length === 0 || quiet.some((day) => day >= 4)) return [];
  const shift_days = (6 - quiet[quiet.length - 1]! + 7) % 7;
  return [
    remark(
      `By the calendar of ${calendar.calendarYear} the quiet days of these figures are ${list(quiet)}, ${days(shift_days)} before Sunday. Check the calendar year, or whether the works really rest then.`,
      shift_days,
    ),
  ];
}

/** Monday is 0. */
function weekdayMeans(hourly: Float64Array, calendar: StudyCalendar, year: number): number[] {
  const total = new Float64Array(7);
  const hours = new Float64Array(7);
  for (let day = 0; day < hourly.length / 24; day += 1) {
    const weekday = weekdayOf(year, calendar.month[day * 24]!, calendar.day[day * 24]!);
    for (let hour = day * 24; hour < day * 24 + 24; hour += 1) total[weekday] += hourly[hour];
    hours[weekday] += 24;
  }
  return Array.from(total, (sum, weekday) => sum / hours[weekday]);
}

function quietDays(means: readonly number[]): number[] {
  const usual = [...means].sort((a, b) => a - b)[3]!;
  return means.flatMap((mean, day) => (mean < quietBelow * usual ? [day] : []));
}

function weekdayOf(year: number, month: number, day: number): number {
  return (new Date(Date.UTC(year, month - 1, day)).getUTCDay() + 6) % 7;
}

/** Days by which a date's weekday in the study's year lies after that in `year`, for most dates. */
function usualShift(calendar: StudyCalendar, year: number): number {
  const counts = new Array<number>(7).fill(0);
  for (let hour = 0; hour < calendar.month.length; hour += 24) {
    const month = calendar.month[hour]!;
    const day = calendar.day[hour]!;
    const shift = weekdayOf(calendar.calendarYear, month, day) - weekdayOf(year, month, day);
    counts[(shift + 7) % 7]! += 1;
  }
  return counts.indexOf(Math.max(...counts));
}

function remark(sentence: string, count: number): QualityFinding {
  return { kind: "week-pattern", sentence, rows: null, from: null, to: null, count };
}

const list = (weekdays: readonly number[]) => weekdays.map((day) => names[day]).join(" and ");
const days = (count: number) => (count === 1 ? "1 day" : `${count} days`);
