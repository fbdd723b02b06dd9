import type { Problem } from "../../problem.ts";
import type { BillsProfile } from "../../study/schema/profile.ts";
import { type BilledQuantity, unitFault } from "./bill-amount.ts";
import { billDate, daysOfBill } from "./bill-days.ts";

export const billProblems = {
  BILL_NONE: "a load by bills needs at least one",
  BILL_DATE: "a bill must run from a date to the same or a later one, a year at most",
  BILL_DAYS_TWICE: "a day of the year must not be billed twice",
  BILL_UNBILLED: "too much of the year is without a bill",
  BILL_UNIT: "the unit of bills must give what the load takes",
  BILL_FUEL: "the fuel of bills must fit their unit and the load",
  BILL_FEW: "a regression on degree days needs at least six bills",
  BILL_DEGREE_DAYS: "degree days are given for all bills or for none",
  BILL_NOWHERE: "a bill falls on days on which the calendar draws nothing, and no base load is given",
} as const;

/** More of the year without a bill than this is refused. */
export const mostUnbilled_days = 92;
const leastBillsForFit = 6;

/** Every fault of a load's bills that can be told without the calendar's hours and the weather. */
export function billFaults(profile: BillsProfile, quantity: BilledQuantity, path: string): Problem[] {
  const problems: Problem[] = [];
  const fault = (code: keyof typeof billProblems, at: string, message: string) => {
    problems.push({ code, message, place: { path: `${path}/${at}` } });
  };
  const unit = unitFault(profile, quantity);
  if (unit !== null) fault(unit.at === "unit" ? "BILL_UNIT" : "BILL_FUEL", unit.at, unit.sentence);
  const { bills, weather } = profile;
  if (bills.length === 0)
    fault("BILL_NONE", "bills", "There is no bill yet; give at least one with its first and last day.");

  const owner = new Map<number, number>();
  bills.forEach((bill, i) => {
    const sound = checkDates(bill.from, bill.to, (at, message) =>
      fault("BILL_DATE", `bills/${i}/${at}`, message),
    );
    if (!sound) return;
    const twice = new Set<number>();
    for (const day of daysOfBill(bill)) {
      const first = owner.get(day);
      if (first === undefined) owner.set(day, i);
      else twice.add(first);
    }
    for (const first of twice)
      fault(
        "BILL_DAYS_TWICE",
        `bills/${i}`,
        `The bill from ${bill.from} to ${bill.to} has days of the year that the one from ${bills[first]!.from} to ${bills[first]!.to} has too; each day of a year may be billed once.`,
      );
  });
  const unbilled = 365 - owner.size;
  if (problems.length === 0 && unbilled > mostUnbilled_days)
    fault(
      "BILL_UNBILLED",
      "bills",
      `${unbilled} days of the year have no bill; at most ${mostUnbilled_days} are filled from the others.`,
    );

  if (weather !== undefined && bills.length > 0 && bills.length < leastBillsForFit)
    fault(
      "BILL_FEW",
      "weather",
      `A regression on degree days is asked of ${bills.length} bills; at least ${leastBillsForFit} are needed, and twelve are better.`,
    );
  const given = bills.filter(({ degreeDays_Kd }) => degreeDays_Kd !== undefined).length;
  if (given > 0 && given < bills.length)
    bills.forEach((bill, i) => {
      if (bill.degreeDays_Kd === undefined)
        fault(
          "BILL_DEGREE_DAYS",
          `bills/${i}/degreeDays_Kd`,
          `The bill from ${bill.from} has no degree days, and ${given} of the ${bills.length} bills have; give them for all or for none.`,
        );
    });
  return problems;
}

function checkDates(from: string, to: string, tell: (at: "from" | "to", message: string) => void): boolean {
  const [first, last] = [billDate(from), billDate(to)];
  if (first === null) tell("from", `${from} is no date of the calendar.`);
  if (last === null) tell("to", `${to} is no date of the calendar.`);
  if (first === null || last === null) return false;
  const days = Math.round(last.diff(first, "days").days) + 1;
  if (days < 1) tell("to", `The bill ends on ${to}, before its first day ${from}.`);
  else if (days > 366)
    tell("to", `The bill from ${from} to ${to} has ${days} days; a year at most is allowed.`);
  return days >= 1 && days <= 366;
}
