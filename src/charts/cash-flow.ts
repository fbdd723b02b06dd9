import { scaleBand } from "d3-scale";
import type { CashFlowYear } from "../core/study/result.ts";
import { cashFlowColumns } from "../core/summary/cash-flow-columns.ts";
import { axisRoom, type Plot, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import type { ChartText } from "./chart-text.ts";
import { areaFill } from "./hatches.ts";
import { keyColumn, keyRow } from "./key.ts";
import { pointLine } from "./point-line.ts";
import { type Attributes, fillOf, label, strokeOf, tag } from "./svg.ts";

/** Money in and out of each year, replacements hatched; beneath, the sum so far. Costs are drawn downwards. */
export function cashFlow(years: readonly CashFlowYear[], currency: string, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "When does the plant pay for itself?");
  const { width, narrow, text, prefix } = settled;
  const kinds: readonly { name: string; of: (year: CashFlowYear) => number; paint: Attributes }[] = [
    {
      name: "cost avoided",
      of: (year) => year.avoided,
      paint: { ...fillOf("inkSoft"), "fill-opacity": 0.4 },
    },
    {
      name: "credits",
      of: (year) => year.credits ?? 0,
      paint: areaFill(prefix, "spill"),
    },
    {
      name: "value left",
      of: (year) => year.residual,
      paint: { ...fillOf("inkSoft"), "fill-opacity": 0.18 },
    },
    { name: "upkeep", of: (year) => -Math.abs(year.upkeep), paint: fillOf("inkSoft") },
    { name: "replacements", of: (year) => -Math.abs(year.replacements), paint: areaFill(prefix, "ink") },
    { name: "first cost", of: (year) => -Math.abs(year.capital), paint: fillOf("ink") },
  ];
  const columns = cashFlowColumns(years);
  const shown = kinds.filter((kind) => years.some((year) => Math.abs(kind.of(year)) > 0));
  const sideSums = years.flatMap((year) => {
    const amounts = shown.map((kind) => kind.of(year)).filter(Number.isFinite);
    const side = (sign: number) =>
      amounts.filter((amount) => amount * sign > 0).reduce((sum, amount) => sum + amount, 0);
    return [side(1), side(-1)];
  });
  const entries = shown.map((kind) => ({ name: kind.name, sample: { area: kind.paint } }));
  const key = narrow ? keyRow(entries, 0, width) : { svg: "", height: 0 };
  const upper = { top: key.height + 30, bottom: key.height + 220 };
  const lower = { top: upper.bottom + 52, bottom: upper.bottom + 190 };
  const y = zeroBasedScale(sideSums, upper);
  const sumY = zeroBasedScale(
    years.map((year) => year.cumulative),
    lower,
  );
  const left = Math.max(axisRoom(y, text), axisRoom(sumY, text));
  const right = narrow ? width - 2 : width - 146;
  const x = scaleBand<number>(
    years.map((year) => year.year),
    [left, right],
  ).padding(0.25);
  const every = Math.max(1, Math.ceil(years.length / (narrow ? 7 : 14)));

  const bars = years.flatMap((year) => {
    let [up, down] = [0, 0];
    return shown.map((kind) => {
      const amount = kind.of(year);
      if (!Number.isFinite(amount) || amount === 0) return "";
      const from = amount > 0 ? up : down;
      if (amount > 0) up += amount;
      else down += amount;
      const [a, b] = [y(from), y(from + amount)];
      return tag("rect", {
        x: x(year.year)!,
        y: Math.min(a, b),
        width: x.bandwidth(),
        height: Math.abs(a - b),
        ...kind.paint,
      });
    });
  });
  const middle = (year: CashFlowYear) => x(year.year)! + x.bandwidth() / 2;
  const names = years
    .filter((_, index) => index % every === 0)
    .map((year) =>
      label(middle(year), lower.bottom + 20, `${year.year}`, { anchor: "middle", tone: "soft", size: 12 }),
    );
  const plotOf = (box: { top: number; bottom: number }): Plot => ({ ...box, left, right });
  const paid = paidBack(years);
  const paidMark =
    paid === null
      ? ""
      : tag("circle", { cx: middle(paid), cy: sumY(paid.cumulative), r: 4.5, ...fillOf("ink") }) +
        (middle(paid) - left > 150
          ? label(middle(paid) - 9, sumY(paid.cumulative) - 9, paidName(paid), { anchor: "end", halo: true })
          : label(middle(paid) + 6, sumY(paid.cumulative) + 20, paidName(paid), { halo: true }));
  return finishChart(settled, {
    height: lower.bottom + 46,
    reading: readingOf(years, currency, text),
    table: {
      columns: ["Year", ...columns.map(({ title }) => `${title}, ${currency}`)],
      rows: years.map((year) => [year.year, ...columns.map(({ of }) => of(year))]),
    },
    body: [
      key.svg,
      valueAxis(y, plotOf(upper), text, `${currency} in the year`),
      ...bars,
      narrow ? "" : keyColumn(entries, right + 18, upper.top + 8),
      valueAxis(sumY, plotOf(lower), text, `${currency}, sum so far`),
      tag("path", {
        d: pointLine(years.map((year) => [middle(year), sumY(year.cumulative)])),
        ...strokeOf("ink", 2),
      }),
      paidMark,
      ...names,
      label(right, lower.bottom + 38, "year of the study", { anchor: "end", tone: "soft", size: 12 }),
    ],
    hatches: ["ink", "spill"],
  });
}

const paidName = (year: CashFlowYear) => `paid back in year ${year.year}`;

/** First year from which the sum stays at or above zero, after having been below; null where none. */
function paidBack(years: readonly CashFlowYear[]): CashFlowYear | null {
  let found: CashFlowYear | null = null;
  let below = false;
  for (const year of years) {
    if (!(year.cumulative >= 0)) {
      below = true;
      found = null;
    } else if (below && found === null) found = year;
  }
  return found;
}

function readingOf(years: readonly CashFlowYear[], currency: string, text: ChartText): string {
  const last = years.at(-1);
  if (last === undefined) return "There is no cash flow to show.";
  const changes = years.filter((year) => Math.abs(year.replacements) > 0).map((year) => year.year);
  const paid = paidBack(years);
  const end = `after year ${last.year} the sum is ${text.number(last.cumulative)} ${currency}`;
  const first =
    paid === null
      ? "The sum does not cross to above zero and stay there"
      : `The sum stays above zero from year ${paid.year}`;
  const parts =
    changes.length === 0
      ? "nothing is replaced"
      : changes.length > 6
        ? `parts are replaced in ${changes.length} of the years`
        : `parts are replaced in year ${changes.join(", ")}`;
  return `${first}; ${end}; ${parts}.`;
}
