import type { Calendar, Shift } from "../../core/study/schema/study.ts";

/** Common practice, no source: one shift on working days. */
export const dayShift: Shift = {
  name: "Day",
  weekdays: [1, 2, 3, 4, 5],
  starts_h: 6,
  ends_h: 14,
  share: 1,
};

const workdays = [1, 2, 3, 4, 5];

/** Weeks that a new calendar may start from. Common practice, no source; an assumption until confirmed. */
export const calendarKinds = [
  ["one-shift", "one shift, Monday to Friday"],
  ["two-shifts", "two shifts, Monday to Friday"],
  ["three-shifts", "three shifts, Monday to Friday, the last into Saturday"],
  ["all-week", "three shifts, every day"],
  ["hours", "24 shares for each kind of day"],
] as const;

/** A new calendar of one of the kinds; null for another kind. */
export function startingCalendar(id: string, kind: string): Calendar | null {
  const name = "New calendar";
  if (kind === "hours") {
    const ones = () => Array.from({ length: 24 }, () => 1);
    return { id, name, week: { by: "hours", weekday: ones(), saturday: ones(), sunday: ones() } };
  }
  const shifts = shiftsOf(kind);
  return shifts === null ? null : { id, name, week: { by: "shifts", shifts, between: 0 } };
}

function shiftsOf(kind: string): Shift[] | null {
  const early = (weekdays: number[]): Shift => ({
    name: "Early",
    weekdays,
    starts_h: 6,
    ends_h: 14,
    share: 1,
  });
  const late = (weekdays: number[]): Shift => ({
    name: "Late",
    weekdays,
    starts_h: 14,
    ends_h: 22,
    share: 1,
  });
  const night = (weekdays: number[]): Shift => ({
    name: "Night",
    weekdays,
    starts_h: 22,
    ends_h: 6,
    share: 1,
  });
  switch (kind) {
    case "":
    case "one-shift":
      return [dayShift];
    case "two-shifts":
      return [early(workdays), late(workdays)];
    case "three-shifts":
      return [early(workdays), late(workdays), night(workdays)];
    case "all-week": {
      const every = [1, 2, 3, 4, 5, 6, 7];
      return [early(every), late(every), night(every)];
    }
    default:
      return null;
  }
}
