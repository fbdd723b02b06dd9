import { scaleBand } from "d3-scale";
import type { ContractYear } from "../core/economics/heat-contract.ts";
import { axisRoom, type Plot, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { areaFill } from "./hatches.ts";
import { fillOf, label, tag } from "./svg.ts";

/** What the client saves and what the seller earns in each year of a heat contract, on the same scale. */
export function contractSides(years: readonly ContractYear[], currency: string, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "What does each side of the contract get in each year?");
  const { width, narrow, text, prefix } = settled;
  const sides = [
    {
      name: "client saves",
      of: (year: ContractYear) => year.client,
      paint: { ...fillOf("inkSoft"), "fill-opacity": 0.5 },
    },
    { name: "to the seller", of: (year: ContractYear) => year.seller, paint: areaFill(prefix, "ink") },
  ] as const;
  const all = years.flatMap((year) => sides.map(({ of }) => of(year)));
  const height = 150;
  const boxes = sides.map((_, n) => ({
    top: 30 + n * (height + 44),
    bottom: 30 + n * (height + 44) + height,
  }));
  const scales = boxes.map((box) => zeroBasedScale(all, box));
  const left = axisRoom(scales[0]!, text);
  const right = width - 2;
  const x = scaleBand<number>(
    years.map(({ year }) => year),
    [left, right],
  ).padding(0.25);
  const every = Math.max(1, Math.ceil(years.length / (narrow ? 7 : 14)));
  const plotOf = (box: { top: number; bottom: number }): Plot => ({ ...box, left, right });
  const panels = sides.flatMap(({ name, of, paint }, n) => {
    const y = scales[n]!;
    return [
      valueAxis(y, plotOf(boxes[n]!), text, `${name}, ${currency} in the year`),
      ...years.map((year) => {
        const amount = of(year);
        if (!Number.isFinite(amount) || amount === 0) return "";
        const [a, b] = [y(0), y(amount)];
        return tag("rect", {
          x: x(year.year)!,
          y: Math.min(a, b),
          width: x.bandwidth(),
          height: Math.abs(a - b),
          ...paint,
        });
      }),
    ];
  });
  const bottom = boxes.at(-1)!.bottom;
  const names = years
    .filter((_, index) => index % every === 0)
    .map(({ year }) =>
      label(x(year)! + x.bandwidth() / 2, bottom + 20, `${year}`, {
        anchor: "middle",
        tone: "soft",
        size: 12,
      }),
    );
  const sum = (of: (year: ContractYear) => number) =>
    text.number(years.reduce((total, year) => total + of(year), 0));
  return finishChart(settled, {
    height: bottom + 46,
    reading: `Over all years, not discounted, the client saves ${sum(({ client }) => client)} ${currency} and the seller’s own money grows by ${sum(({ seller }) => seller)} ${currency}.`,
    table: {
      columns: ["Year", `Client saves, ${currency}`, `To the seller, ${currency}`],
      rows: years.map(({ year, client, seller }) => [year, client, seller]),
    },
    body: [
      ...panels,
      ...names,
      label(right, bottom + 38, "year of the contract", { anchor: "end", tone: "soft", size: 12 }),
    ],
    hatches: ["ink"],
  });
}
