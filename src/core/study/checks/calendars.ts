import { isWithin, monthAndDay } from "../../month-day.ts";
import type { Problem } from "../../problem.ts";
import { namedCalendars } from "../named-calendars.ts";
import type { Calendar, Shift, Study } from "../schema/study.ts";
import { checkDate, checkSpans } from "./dates.ts";
import { fault } from "./study-problems.ts";

/** Every fault of the calendars that a schema cannot see. */
export function checkCalendars({ calendars }: Pick<Study, "calendars">): Problem[] {
  return calendars.flatMap((calendar, i) => {
    const path = `calendars/${i}`;
    const { week, campaigns = [], holidays = [], closed = [] } = calendar;
    return [
      ...(week.by === "shifts" ? shiftFaults(week.shifts, `${path}/week/shifts`) : []),
      ...checkSpans(campaigns, `${path}/campaigns`),
      ...campaignOverlaps(campaigns, `${path}/campaigns`),
      ...holidays.flatMap(({ date }, j) => checkDate(date, `${path}/holidays/${j}/date`)),
      ...holidaysTwice(holidays, `${path}/holidays`),
      ...checkSpans(closed, `${path}/closed`),
    ];
  });
}

/** What is odd in calendars without faults. */
export function calendarRemarks(study: Study): Problem[] {
  const { calendars } = study;
  const named = new Set(namedCalendars(study).map(({ id }) => id));
  return calendars.flatMap(({ id, name }, i) =>
    named.has(id)
      ? []
      : [
          fault(
            "REMARK_CALENDAR_IDLE",
            `calendars/${i}`,
            `Nothing goes by the calendar "${name}"; it changes nothing.`,
          ),
        ],
  );
}

const minutesPerWeek = 7 * 24 * 60;

function shiftFaults(shifts: readonly Shift[], path: string): Problem[] {
  const problems: Problem[] = [];
  shifts.forEach((shift, i) => {
    for (const end of ["starts_h", "ends_h"] as const) {
      if (Number.isInteger(shift[end] * 4)) continue;
      problems.push(
        fault(
          "STUDY_SHIFT_TIME",
          `${path}/${i}/${end}`,
          `The shift "${shift.name}" has ${shift[end]} h; quarter hours are allowed, such as 6, 6.25, 6.5 or 6.75.`,
        ),
      );
    }
    if (new Set(shift.weekdays).size < shift.weekdays.length)
      problems.push(
        fault("STUDY_REFERENCE_TWICE", `${path}/${i}/weekdays`, "A weekday is named twice; once is allowed."),
      );
  });
  const spells = shifts
    .flatMap((shift, i) => [...new Set(shift.weekdays)].map((weekday) => spellOf(shift, weekday, i)))
    .sort((a, b) => a.from - b.from);
  spells.forEach((spell, k) => {
    const next = k + 1 < spells.length ? spells[k + 1]! : spells[0]!;
    const nextFrom = k + 1 < spells.length ? next.from : next.from + minutesPerWeek;
    if (spell.until <= nextFrom || spells.length === 1) return;
    const [a, b] = [shifts[spell.shift]!, shifts[next.shift]!];
    problems.push(
      fault(
        "STUDY_SHIFTS_OVERLAP",
        `${path}/${next.shift}`,
        `The shift "${b.name}" of ${weekdayNames[next.weekday]} starts at ${clockTime(b.starts_h)}, before "${a.name}" of ${weekdayNames[spell.weekday]} ends at ${clockTime(a.ends_h)}; one shift at a time is allowed, with the share of what works together.`,
      ),
    );
  });
  return problems;
}

function spellOf(shift: Shift, weekday: number, index: number) {
  const from = (weekday - 1) * 24 * 60 + shift.starts_h * 60;
  const lasts_h =
    shift.ends_h > shift.starts_h ? shift.ends_h - shift.starts_h : shift.ends_h + 24 - shift.starts_h;
  return { from, until: from + lasts_h * 60, shift: index, weekday };
}

const weekdayNames = ["", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

function clockTime(hour: number): string {
  const minutes = Math.round((hour % 1) * 60);
  return `${String(Math.floor(hour)).padStart(2, "0")}:${String(minutes).padStart(2, "0")}`;
}

function campaignOverlaps(campaigns: NonNullable<Calendar["campaigns"]>, path: string): Problem[] {
  return campaigns.flatMap((campaign, i) => {
    const other = campaigns.findIndex((earlier, j) => j < i && sharesDay(earlier, campaign));
    if (other < 0) return [];
    return [
      fault(
        "STUDY_CAMPAIGNS_OVERLAP",
        `${path}/${i}`,
        `The campaign "${campaign.name}" from ${campaign.from} to ${campaign.to} shares days with "${campaigns[other]!.name}" from ${campaigns[other]!.from} to ${campaigns[other]!.to}; one campaign a day is allowed.`,
      ),
    ];
  });
}

type Span = { readonly from: string; readonly to: string };

/** Two spans on the ring of the year share a day where the start of one lies in the other. */
function sharesDay(a: Span, b: Span): boolean {
  return isWithin(monthAndDay(a.from), b) || isWithin(monthAndDay(b.from), a);
}

function holidaysTwice(holidays: NonNullable<Calendar["holidays"]>, path: string): Problem[] {
  return holidays.flatMap(({ date, name }, i) => {
    const first = holidays.findIndex((one) => one.date === date);
    if (first === i) return [];
    return [
      fault(
        "STUDY_CALENDAR_TWICE",
        `${path}/${i}/date`,
        `"${name}" is on ${date}, as "${holidays[first]!.name}" is; a date is named once.`,
      ),
    ];
  });
}
