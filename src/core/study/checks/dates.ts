import { monthLength_days } from "../../calendar.ts";
import type { DaySpan } from "../../month-day.ts";
import type { Problem } from "../../problem.ts";
import { fault } from "./study-problems.ts";

/** A month-day that the study's year of 365 days does not have. */
export function checkDate(text: string, path: string): Problem[] {
  const [month = 0, day = 0] = text.split("-").map(Number);
  if (day <= monthLength_days(month)) return [];
  return [
    fault(
      "STUDY_DATE",
      path,
      `${text} is not a day of the study year; month ${month} has ${monthLength_days(month)} days.`,
    ),
  ];
}

/** As checkDate, for both ends of each span. */
export function checkSpans(spans: readonly DaySpan[], path: string): Problem[] {
  return spans.flatMap((span, i) =>
    (["from", "to"] as const).flatMap((end) => checkDate(span[end], `${path}/${i}/${end}`)),
  );
}
