import { scaleBand } from "d3-scale";
import { monthNames } from "../core/calendar.ts";
import type { MonthFigures } from "../core/study/result.ts";
import { axisRoom, extremes, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { type ChartText, energyUnit, percent } from "./chart-text.ts";
import { areaFill } from "./hatches.ts";
import { keyColumn, keyRow } from "./key.ts";
import { shortMonth } from "./months-of-year.ts";
import { label, tag } from "./svg.ts";

/** Each month's heat by source, stacked; spilled heat as a thin hatched bar beside it. */
export function months(figures: readonly MonthFigures[], frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "How much of each month’s heat is solar?");
  const { width, narrow, text, prefix } = settled;
  const heights = figures.map((month) => month.direct_kWh + month.fromStore_kWh + month.backup_kWh);
  const all = [...heights, ...figures.map((month) => month.spill_kWh)];
  const unit = energyUnit(extremes(all).high);
  const scaled = all.map((value) => value / unit.per);

  const entries = [
    { name: "spilled", sample: { area: areaFill(prefix, "spill") } },
    { name: "backup", sample: { area: areaFill(prefix, "backup") } },
    { name: "from store", sample: { area: areaFill(prefix, "store") } },
    { name: "from the sun", sample: { area: areaFill(prefix, "direct") } },
  ];
  const key = narrow ? keyRow(entries, 0, width) : { svg: "", height: 0 };
  const box = { top: key.height + 30, bottom: key.height + 240 };
  const y = zeroBasedScale(scaled, box);
  const plot = { ...box, left: axisRoom(y, text), right: narrow ? width - 2 : width - 128 };
  const x = scaleBand<number>(
    figures.map((month) => month.month),
    [plot.left, plot.right],
  ).paddingInner(0.3);

  const bars = figures.flatMap((month) => {
    const left = x(month.month)!;
    const stack = [
      ["direct", month.direct_kWh],
      ["store", month.fromStore_kWh],
      ["backup", month.backup_kWh],
    ] as const;
    let below = 0;
    const bar = (
      meaning: "direct" | "store" | "backup" | "spill",
      from: number,
      to: number,
      at: number,
      part: number,
    ) =>
      to - from > 0
        ? tag("rect", {
            x: left + at * x.bandwidth(),
            y: y(to / unit.per),
            width: part * x.bandwidth(),
            height: y(from / unit.per) - y(to / unit.per),
            ...areaFill(prefix, meaning),
          })
        : "";
    const parts = stack.map(([meaning, amount]) => {
      const drawn = bar(meaning, below, below + amount, 0, 0.72);
      if (amount > 0) below += amount;
      return drawn;
    });
    const name = narrow ? monthNames[month.month - 1]![0]! : shortMonth(month.month);
    return [
      ...parts,
      bar("spill", 0, month.spill_kWh, 0.78, 0.22),
      label(left + 0.36 * x.bandwidth(), plot.bottom + 19, name, {
        anchor: "middle",
        tone: "soft",
        size: 12,
      }),
    ];
  });
  return finishChart(settled, {
    height: plot.bottom + 30,
    reading: readingOf(figures, text),
    table: {
      columns: [
        "Month",
        "Demand, kWh",
        "From the sun, kWh",
        "From store, kWh",
        "Backup, kWh",
        "Spilled, kWh",
      ],
      rows: figures.map((month) => [
        monthNames[month.month - 1] ?? month.month,
        month.demand_kWh,
        month.direct_kWh,
        month.fromStore_kWh,
        month.backup_kWh,
        month.spill_kWh,
      ]),
    },
    body: [
      key.svg,
      valueAxis(y, plot, text, `${unit.unit} a month`),
      ...bars,
      narrow ? "" : keyColumn(entries, plot.right + 20, plot.top + 8),
    ],
    hatches: ["store", "spill"],
  });
}

function readingOf(figures: readonly MonthFigures[], text: ChartText): string {
  const total = (of: (month: MonthFigures) => number) => figures.reduce((sum, month) => sum + of(month), 0);
  const demand = total((month) => month.demand_kWh);
  if (!(demand > 0)) return "There is no heat demand in these months.";
  const unit = energyUnit(demand);
  const amount = (kWh: number) => `${text.number(kWh / unit.per)} ${unit.unit}`;
  const solar = (month: MonthFigures) => (month.direct_kWh + month.fromStore_kWh) / month.demand_kWh;
  const ranked = figures.filter((month) => month.demand_kWh > 0).sort((a, b) => solar(b) - solar(a));
  const [best, worst] = [ranked[0]!, ranked.at(-1)!];
  const name = (month: MonthFigures) => `${monthNames[month.month - 1]} (${percent(text, solar(month))})`;
  const spill = total((month) => month.spill_kWh);
  return (
    `Sun and store give ${percent(text, total((month) => month.direct_kWh + month.fromStore_kWh) / demand)} of the ${amount(demand)} wanted, ` +
    `most in ${name(best)} and least in ${name(worst)}; ${spill > 0 ? amount(spill) : "no heat"} ${spill > 0 ? "are" : "is"} spilled.`
  );
}
