import { forBothWidths, logFit, plainText } from "../../charts/index.ts";
import { studyCalendar } from "../../core/calendar.ts";
import { hourWords } from "../../core/demand/quality/hour-words.ts";
import type { Study } from "../../core/study/schema/study.ts";
import type { DemandAccount } from "../../formats/demand/account.ts";
import { threeDigits, withDecimals } from "../../present/numbers.ts";
import { figuresTable, type TableView } from "../../present/table-view.ts";
import { type ChartView, chartView } from "./document-charts.ts";

export interface ExtensionView {
  readonly chart: ChartView;
  /** Weeks left out of the fit in turn; null with fewer than three. */
  readonly table: TableView | null;
}

/** How a log of part of a year was extended; null where it was not. */
export function extensionView(
  study: Study,
  { extension, understood }: Pick<DemandAccount, "extension" | "understood">,
): ExtensionView | null {
  if (extension === null) return null;
  const { site, money } = study;
  const clock = studyCalendar({ ...site, calendarYear: understood.yearOfFile ?? site.calendarYear });
  const unit = understood.hourlyUnit ?? "";
  const { logged, model, fit } = extension;
  const data = { logged, model, weekday: clock.civilWeekday, hour: clock.civilHour, unit };
  const text = plainText(money.locale ?? "en", money.currency);
  const chart = chartView(forBothWidths({ prefix: "log-fit", text }, (frame) => logFit(data, frame)));
  if (fit.weeks.length === 0) return { chart, table: null };
  const sum = unit === "kW" ? "kWh" : unit.replace("/h", "");
  return {
    chart,
    table: figuresTable(
      "Each logged week, foretold by a fit to the others",
      ["From", "Logged hours", `Logged, ${sum}`, `Foretold, ${sum}`, "Missed by, %"],
      fit.weeks.map(({ from, logged_h, logged: whole, foretold }) => [
        hourWords(from),
        String(logged_h),
        threeDigits(whole),
        threeDigits(foretold),
        foretold > 0 ? withDecimals((100 * (whole - foretold)) / foretold, 1) : "–",
      ]),
    ),
  };
}
