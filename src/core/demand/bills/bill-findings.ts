import type { Problem } from "../../problem.ts";
import type { BillsProfile } from "../../study/schema/profile.ts";
import { amountUnit, type BilledQuantity } from "./bill-amount.ts";
import type { billProblems } from "./bill-faults.ts";
import type { BilledStretch, BillYear } from "./bill-year.ts";

export const billRemarkCodes = {
  BILL_FILLED: "days without a bill were filled from the others",
  BILL_ALL_EVEN: "the calendar draws nothing on a bill's days, so all of it went evenly",
  BILL_NO_WEATHER: "the bills do not go by the weather as was asked",
  BILL_FIT_WEAK: "the regression of the bills on degree days explains them poorly",
  BILL_LEAP_DAY: "the use of a 29 February went to the other days of its bill",
} as const;

/** Below these a regression is called weak. Common practice, no source for the first; see docs/methods/bills.md. */
export const weakFit = { r2: 0.7, cvRmse: 0.2 } as const;

/** Faults that only the calendar's hours show. */
export function billHourFaults(profile: BillsProfile, year: BillYear, path: string): Problem[] {
  return year.nowhere.map((k) => {
    const { bill, from, to } = year.stretches[k]!;
    return {
      code: "BILL_NOWHERE" satisfies keyof typeof billProblems,
      message: `The bill from ${from} to ${to} is of ${profile.bills[bill ?? 0]!.amount} ${profile.unit}, and the calendar draws nothing on these days; correct the calendar or give a base load.`,
      place: { path: bill === null ? path : `${path}/bills/${bill}` },
    };
  });
}

/** What the reader must know of how the bills became hours. */
export function billFindings(
  load: { readonly name: string },
  profile: BillsProfile,
  quantity: BilledQuantity,
  year: BillYear,
  path: string,
): Problem[] {
  const { stretches, fit, allEven } = year;
  const unit = amountUnit[quantity];
  const words = (value: number) => Number(value.toPrecision(3)).toLocaleString("en");
  const total = stretches.reduce((sum, { amount }) => sum + amount, 0);
  const remark = (code: keyof typeof billRemarkCodes, message: string): Problem => ({
    code,
    message: `${load.name}: ${message}`,
    place: { path },
  });
  const stretchWords = ({ from, to }: BilledStretch) => `${from} to ${to}`;
  const remarks: Problem[] = [];
  const filled = stretches.filter(({ bill }) => bill === null);
  if (filled.length > 0) {
    const days = filled.reduce((sum, stretch) => sum + stretch.days, 0);
    const amount = filled.reduce((sum, stretch) => sum + stretch.amount, 0);
    const by = fit === null ? "the bills' mean by base load and calendar" : "the regression";
    remarks.push(
      remark(
        "BILL_FILLED",
        `${days} days have no bill (${filled.map(stretchWords).join(", ")}); ${by} gives them ${words(amount)} ${unit}, ${words((100 * amount) / total)} % of the year.`,
      ),
    );
  }
  for (const k of allEven)
    remarks.push(
      remark(
        "BILL_ALL_EVEN",
        `the calendar draws nothing from ${stretchWords(stretches[k]!)}, so what goes not by the weather there is all drawn evenly.`,
      ),
    );
  if (profile.bills.some(({ from, to }) => hasLeapDay(from, to)))
    remarks.push(
      remark(
        "BILL_LEAP_DAY",
        "a bill has a 29 February, which the study's year lacks; its use went to the bill's other days.",
      ),
    );
  if (profile.weather !== undefined) remarks.push(...fitRemarks(year, remark));
  return remarks;
}

function fitRemarks(
  { fit }: BillYear,
  remark: (code: keyof typeof billRemarkCodes, message: string) => Problem,
): Problem[] {
  if (fit === null)
    return [
      remark(
        "BILL_NO_WEATHER",
        "the bills cannot tell weather from the rest, as their degree days go with their length; nothing was given to the weather.",
      ),
    ];
  if (!(fit.slope_per_Kd > 0))
    return [
      remark(
        "BILL_NO_WEATHER",
        "the bills do not rise with the degree days; nothing was given to the weather. Check the temperature at which they begin, and whether they are of heating or cooling.",
      ),
    ];
  if (fit.r2 >= weakFit.r2 && fit.cvRmse <= weakFit.cvRmse && fit.steady_per_year >= 0) return [];
  const why =
    fit.steady_per_year < 0
      ? "it leaves less than nothing for the rest, so all was given to the weather"
      : `R² is ${fit.r2.toFixed(2)} and CV(RMSE) ${(100 * fit.cvRmse).toFixed(0)} %`;
  return [
    remark(
      "BILL_FIT_WEAK",
      `the regression on degree days explains the bills poorly: ${why}. The weather's share is uncertain; the bills themselves are kept.`,
    ),
  ];
}

function hasLeapDay(from: string, to: string): boolean {
  for (let year = Number(from.slice(0, 4)); year <= Number(to.slice(0, 4)); year += 1) {
    const leap = `${year}-02-29`;
    const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
    if (isLeap && from <= leap && leap <= to) return true;
  }
  return false;
}
