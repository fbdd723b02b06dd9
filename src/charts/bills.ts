import { scaleLinear } from "d3-scale";
import { hourIndex, monthLength_days } from "../core/calendar.ts";
import type { BilledStretch } from "../core/demand/bills/bill-year.ts";
import { axisRoom, extremes, type Scale, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { areaFill } from "./hatches.ts";
import { keyColumn, keyRow } from "./key.ts";
import { monthStarts, shortMonth } from "./months-of-year.ts";
import { type Attributes, fillOf, label, strokeOf, tag } from "./svg.ts";

export interface BillsData {
  readonly stretches: readonly BilledStretch[];
  /** What the amounts are in: kWh, kg or m³. */
  readonly unit: string;
}

/** Each bill as a bar over its days, its height the mean of a day, stacked by how it was spread; the regression as a line across. */
export function bills({ stretches, unit }: BillsData, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "How do the bills become the year?");
  const { width, narrow, text, prefix } = settled;
  const perDay = (amount: number, { days }: BilledStretch) => amount / days;
  const heights = stretches.flatMap((one) => [perDay(one.amount, one), perDay(one.fitted ?? 0, one)]);
  const divisor = extremes(heights).high >= 20_000 && unit !== "m³" ? 1000 : 1;
  const shown = divisor === 1 ? unit : unit === "kWh" ? "MWh" : "t";
  const hasFit = stretches.some(({ fitted }) => fitted !== null);
  const fills: Readonly<Record<"even" | "byCalendar" | "byWeather", Attributes>> = {
    even: fillOf("inkSoft"),
    byCalendar: areaFill(prefix, "ink"),
    byWeather: { ...strokeOf("ink", 1), ...fillOf("ground"), stroke: strokeOf("ink").stroke },
  };
  const entries = [
    ...(hasFit ? [{ name: "by the weather", sample: { area: fills.byWeather } }] : []),
    { name: "by the calendar", sample: { area: fills.byCalendar } },
    { name: "evenly", sample: { area: fills.even } },
    ...(hasFit ? [{ name: "regression", sample: { line: strokeOf("direct", 3) } }] : []),
  ];
  const key = narrow ? keyRow(entries, 0, width) : { svg: "", height: 0 };
  const box = { top: key.height + 30, bottom: key.height + 220 };
  const y = zeroBasedScale(
    heights.map((value) => value / divisor),
    box,
  );
  const plot = { ...box, left: axisRoom(y, text), right: narrow ? width - 4 : width - 156 };
  const x: Scale = scaleLinear([0, 365], [plot.left, plot.right]);
  const bars = stretches.flatMap((one) =>
    spansOf(one).flatMap(([from, until]) => {
      const left = x(from) + 1;
      const wide = Math.max(1, x(until) - x(from) - 2);
      let below = 0;
      const parts = (["even", "byCalendar", "byWeather"] as const).map((part) => {
        const amount = perDay(one[part], one) / divisor;
        const drawn =
          amount > 0
            ? tag("rect", {
                x: left,
                y: y(below + amount),
                width: wide,
                height: y(below) - y(below + amount),
                ...fills[part],
              })
            : "";
        below += amount;
        return drawn;
      });
      const line =
        one.fitted === null
          ? ""
          : tag("path", {
              d: `M${round(left)} ${round(y(perDay(one.fitted, one) / divisor))}h${round(wide)}`,
              ...strokeOf("direct", 3),
            });
      const gap =
        one.bill === null
          ? label(left + wide / 2, y(below) - 6, "no bill", { anchor: "middle", size: 12 })
          : "";
      return [...parts, line, gap];
    }),
  );
  return finishChart(settled, {
    height: plot.bottom + 32,
    reading: readingOf(stretches, unit, text.number),
    table: {
      columns: ["From", "To", "Days", `Amount, ${unit}`, "Evenly", "By the calendar", "By the weather"],
      rows: stretches.map((one) => [
        one.from,
        one.to,
        one.days,
        one.amount,
        one.even,
        one.byCalendar,
        one.byWeather,
      ]),
    },
    body: [
      key.svg,
      valueAxis(y, plot, text, `${shown} a day`),
      ...bars,
      ...Array.from({ length: 12 }, (_, month) => {
        const [start, end] = [monthStarts[month]! / 24, monthStarts[month + 1]! / 24];
        const name = narrow ? shortMonth(month + 1)[0]! : shortMonth(month + 1);
        return label(x((start + end) / 2), plot.bottom + 19, name, {
          anchor: "middle",
          tone: "soft",
          size: 12,
        });
      }),
      narrow ? "" : keyColumn(entries, plot.right + 18, plot.top + 8),
    ],
    hatches: ["ink"],
  });
}

/** Days of the year that a stretch covers, in two pieces where it runs over New Year. */
function spansOf({ from, to }: BilledStretch): [number, number][] {
  const ordinal = (text: string) => {
    const [month = 1, day = 1] = text.split("-").slice(-2).map(Number);
    return hourIndex(month, Math.min(day, monthLength_days(month)), 0) / 24 + 1;
  };
  const [first, last] = [ordinal(from) - 1, ordinal(to)];
  return last > first
    ? [[first, last]]
    : [
        [first, 365],
        [0, last],
      ];
}

const round = (value: number) => Math.round(value * 100) / 100;

function readingOf(
  stretches: readonly BilledStretch[],
  unit: string,
  number: (value: number) => string,
): string {
  const total = (part: "amount" | "even" | "byCalendar" | "byWeather") =>
    stretches.reduce((sum, one) => sum + one[part], 0);
  const amount = total("amount");
  if (!(amount > 0)) return "The bills are all of nothing.";
  const share = (part: "even" | "byCalendar" | "byWeather") => `${number((100 * total(part)) / amount)} %`;
  const ranked = [...stretches].sort((a, b) => b.amount / b.days - a.amount / a.days);
  const [most, least] = [ranked[0]!, ranked.at(-1)!];
  const day = (one: BilledStretch) =>
    `${number(one.amount / one.days)} ${unit} a day from ${one.from} to ${one.to}`;
  return (
    `${number(amount)} ${unit} in the year: ${share("even")} evenly, ${share("byCalendar")} by the calendar, ${share("byWeather")} by the weather. ` +
    `Most is ${day(most)}, least ${day(least)}.`
  );
}
