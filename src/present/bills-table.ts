import { amountUnit, type BilledQuantity } from "../core/demand/bills/bill-amount.ts";
import type { BillYear } from "../core/demand/bills/bill-year.ts";
import type { BillsProfile, Study } from "../core/study/schema/study.ts";
import { asGiven, withDecimals } from "./numbers.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** Every bill with what it came to and how it was spread over the hours; its residual where a regression was asked. */
export function billsTable(
  study: Study,
  profile: BillsProfile,
  quantity: BilledQuantity,
  year: BillYear,
): TableView {
  const { locale } = writingOf(study);
  const unit = amountUnit[quantity];
  const figure = (value: number, digits = 4) => asGiven(Number(value.toPrecision(digits)), locale);
  const fit = year.fit;
  return figuresTable(
    "The bills, and how each was spread over its hours",
    [
      "Days",
      "Count",
      `Billed, ${profile.unit.replace("m3", "m³")}`,
      `Comes to, ${unit}`,
      "Evenly",
      "By the calendar",
      "By the weather",
      ...(fit === null ? [] : ["Degree days, K·d", "Bill less regression, %"]),
    ],
    year.stretches.map((one) => [
      `${one.from} to ${one.to}`,
      String(one.days),
      one.bill === null ? "no bill" : figure(profile.bills[one.bill]!.amount, 12),
      figure(one.amount),
      figure(one.even),
      figure(one.byCalendar),
      figure(one.byWeather),
      ...(fit === null
        ? []
        : [
            figure(one.degreeDays_Kd ?? 0, 3),
            one.bill === null || one.amount === 0
              ? "–"
              : withDecimals((100 * (one.amount - (one.fitted ?? 0))) / one.amount, 1, locale),
          ]),
    ]),
  );
}

/** What a regression says and how sure it is; nothing where none was asked. */
export function billSentences(
  study: Study,
  profile: BillsProfile,
  quantity: BilledQuantity,
  year: BillYear,
): string[] {
  const { fit, stretches } = year;
  if (profile.weather === undefined || fit === null || !(fit.slope_per_Kd > 0)) return [];
  const { locale } = writingOf(study);
  const figure = (value: number, digits = 3) => asGiven(Number(value.toPrecision(digits)), locale);
  const unit = amountUnit[quantity];
  const degreeDays = stretches.reduce((sum, one) => sum + (one.degreeDays_Kd ?? 0), 0);
  const amount = stretches.reduce((sum, one) => sum + one.amount, 0);
  const percent = (value: number) => figure((100 * value * degreeDays) / amount, 2);
  const source = profile.bills.some(({ degreeDays_Kd }) => degreeDays_Kd !== undefined)
    ? "as given with the bills"
    : "of the study’s weather year, which need not be that of the bills";
  return [
    `Regression on ${profile.weather.for} degree days ${profile.weather.for === "heating" ? "below" : "above"} ${profile.weather.base_C} °C, ${source}: ` +
      `${figure(fit.slope_per_Kd)} ± ${figure(fit.slopeError_per_Kd, 2)} ${unit} per K·d (standard error), which is ${percent(fit.slope_per_Kd)} ± ${percent(fit.slopeError_per_Kd)} % of the year; ` +
      `R² ${fit.r2.toFixed(2)}, CV(RMSE) ${figure(100 * fit.cvRmse, 2)} % of ${profile.bills.length} bills.`,
  ];
}
