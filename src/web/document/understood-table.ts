import type { DemandAccount } from "../../formats/demand/account.ts";
import { threeDigits } from "../../present/numbers.ts";
import { figuresTable, type TableView } from "../../present/table-view.ts";

/** What was understood of a demand file, a line a finding, with how it was found out. */
export function understoodTable({ understood: u }: DemandAccount): TableView {
  const separator = u.delimiter === "\t" ? "tab" : u.delimiter;
  const unit = u.hourlyUnit ?? "";
  const rows: (string | null)[][] = [
    [
      "Rows of data",
      threeDigitsWhole(u.rows),
      u.headerRow === null ? "no header" : `header in row ${u.headerRow}`,
    ],
    ["Sheet", u.sheet, u.sheet === null ? "" : u.encoding],
    ["From", u.firstStamp, ""],
    ["To", u.lastStamp, ""],
    ["Interval", u.step_min === null ? null : `${u.step_min} min`, ""],
    ["Time column", u.timeColumn, u.dateOrder === null ? "" : `dates as ${u.dateOrder}: ${u.dateOrderHow}`],
    ["A time stamp marks", `the ${u.stamp} of its interval`, u.stampHow],
    [
      "Clock",
      u.clock === "civil" ? "civil time, with daylight saving" : "standard time all year",
      u.clockHow,
    ],
    ["Value column", u.valueColumn, ""],
    ["A value is", u.values === "counter" ? "the reading of a counter" : "the figure of its interval", ""],
    ["Unit", u.unit, u.unitHow],
    ["Column separator", u.sheet === null ? separator : null, u.delimiterHow],
    ["Decimal sign", u.decimal, u.decimalHow],
    [
      "Total of the year",
      u.total === null
        ? null
        : `${threeDigits(u.total)} ${unit}·h`.replace("kW·h", "kWh").replace("kg/h·h", "kg"),
      "",
    ],
    ["Largest hour", u.peak === null ? null : `${threeDigits(u.peak)} ${unit}`, ""],
    ["Mean", u.mean === null ? null : `${threeDigits(u.mean)} ${unit}`, ""],
  ];
  return figuresTable(
    "What was understood of the file",
    ["", "Found", "How"],
    rows.filter((row) => row[1] !== null).map((row) => row.map((cell) => cell ?? "")),
    ["Found", "How"],
  );
}

function threeDigitsWhole(count: number): string {
  return new Intl.NumberFormat("en").format(count);
}
