import { scaleLinear } from "d3-scale";
import { symbol, symbolCircle, symbolDiamond, symbolSquare, symbolStar, symbolTriangle } from "d3-shape";
import type { MatchRow } from "../core/study/result.ts";
import { axisRoom, extremes, positionAxis, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { keyRow } from "./key.ts";
import { dashOf, pointLine } from "./point-line.ts";
import { spread } from "./spread.ts";
import { fillOf, label, strokeOf, tag, textWidth } from "./svg.ts";

const shapes = [symbolCircle, symbolSquare, symbolTriangle, symbolDiamond, symbolStar] as const;

/** Useful heat of each collector at the mean fluid temperature of each network it can serve. */
export function collectorMatch(rows: readonly MatchRow[], frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "Which collector gives how much heat at which temperature?");
  const { width, narrow, text } = settled;
  const usable = rows.filter(
    (row) => row.possible && Number.isFinite(row.useful_kWh_per_m2) && Number.isFinite(row.meanFluid_C),
  );
  const collectors = [...new Set(usable.map((row) => row.collector))].map((name, index) => ({
    name,
    dash: dashOf(index),
    shape: symbol(shapes[index % shapes.length], 60)() ?? "",
    rows: usable.filter((row) => row.collector === name).sort((a, b) => a.meanFluid_C - b.meanFluid_C),
  }));
  const longest = Math.max(0, ...collectors.map((collector) => textWidth(collector.name)));
  const beside = !narrow && longest < 190;
  const key = beside
    ? { svg: "", height: 0 }
    : keyRow(
        collectors.map(({ name, dash }) => ({
          name,
          sample: { line: { ...strokeOf("ink", 1.8), "stroke-dasharray": dash } },
        })),
        0,
        width,
      );
  const networks = [...new Set(usable.map((row) => row.network))].map((name) => {
    const own = usable.filter((row) => row.network === name);
    return { name, mean_C: own.reduce((sum, row) => sum + row.meanFluid_C, 0) / own.length };
  });
  const y0 = zeroBasedScale(
    usable.map((row) => row.useful_kWh_per_m2),
    { top: 0, bottom: 1 },
  );
  const left = axisRoom(y0, text);
  const right = beside ? width - longest - 20 : width - 14;
  const { low, high } = extremes(usable.map((row) => row.meanFluid_C));
  const pad = Math.max(5, 0.06 * (high - low));
  const x = scaleLinear([low - pad, high + pad], [left, right]);
  const named = rowsOfLabels(
    networks.map((network) => ({ name: network.name, x: x(network.mean_C) })),
    left,
    right,
  );
  const top = key.height + 34 + 18 * Math.max(1, ...named.map((one) => one.row + 1));
  const plot = { left, right, top, bottom: top + 210 };
  const y = y0.copy().range([plot.bottom, plot.top]);

  const guides = named.map((one) => {
    const foot = plot.top - 10 - 18 * one.row;
    const d = `M${Math.round(one.at) + 0.5} ${foot + 5}V${plot.bottom}`;
    return (
      tag("path", { d, ...strokeOf("rule", 1), "stroke-dasharray": "1 3" }) +
      label(one.x, foot, one.name, { anchor: "middle", tone: "soft", size: 12, halo: true })
    );
  });
  // A line that ends early bears its name at its end; the others share the margin.
  const endsEarly = collectors.map(
    ({ name, rows: own }) => x(own.at(-1)!.meanFluid_C) + textWidth(name) + 30 < right,
  );
  const marginal = collectors.flatMap((_, index) => (endsEarly[index] ? [] : [index]));
  const places = spread(
    marginal.map((index) => y(collectors[index]!.rows.at(-1)!.useful_kWh_per_m2)),
    17,
    plot.top,
    plot.bottom,
  );
  const nameAt = (index: number, endX: number, endY: number) => {
    const { name } = collectors[index]!;
    if (endsEarly[index]) return label(endX + 10, endY + 4.5, name, { halo: true });
    const place = places[marginal.indexOf(index)]!;
    const leader = pointLine([
      [endX + 7, endY],
      [right + 4, place],
    ]);
    return tag("path", { d: leader, ...strokeOf("rule", 1) }) + label(right + 8, place + 4.5, name);
  };
  const lines = collectors.map((collector, index) => {
    const points = collector.rows.map((row): [number, number] => [
      x(row.meanFluid_C),
      y(row.useful_kWh_per_m2),
    ]);
    const dots = points.map(([px, py]) =>
      tag("path", {
        d: collector.shape,
        transform: `translate(${px.toFixed(1)} ${py.toFixed(1)})`,
        ...fillOf("direct"),
      }),
    );
    const [endX, endY] = points.at(-1)!;
    const name = beside ? nameAt(index, endX, endY) : "";
    const stroke = { ...strokeOf("ink", 1.8), "stroke-dasharray": collector.dash };
    return tag("path", { d: pointLine(points), ...stroke }) + dots.join("") + name;
  });
  return finishChart(settled, {
    height: plot.bottom + 46,
    reading: readingOf(rows, usable, text.number),
    table: {
      columns: ["Collector", "Network", "Mean fluid, °C", "Useful heat, kWh/m²", "Remark"],
      rows: rows.map((row) => [
        row.collector,
        row.network,
        row.meanFluid_C,
        row.possible ? row.useful_kWh_per_m2 : "not possible",
        row.remark,
      ]),
    },
    body: [
      key.svg,
      label(0, key.height + 14, "useful kWh a year per m² of aperture", { tone: "soft", size: 12 }),
      ...guides,
      valueAxis(y, plot, text, ""),
      positionAxis(x, plot, text, "mean fluid temperature, °C", narrow ? 4 : 6),
      ...lines,
    ],
  });
}

/** Puts names that would touch into rows above one another, the lowest row that is free. */
function rowsOfLabels(
  names: readonly { readonly name: string; readonly x: number }[],
  left: number,
  right: number,
) {
  const ends: number[] = [];
  return [...names]
    .sort((a, b) => a.x - b.x)
    .map(({ name, x: at }) => {
      const half = textWidth(name, 12) / 2;
      const x = Math.max(left + half, Math.min(right - half, at));
      let row = 0;
      while ((ends[row] ?? Number.NEGATIVE_INFINITY) > x - half - 6) row += 1;
      ends[row] = x + half;
      return { name, at, x, row };
    });
}

function readingOf(
  rows: readonly MatchRow[],
  usable: readonly MatchRow[],
  number: (value: number) => string,
): string {
  const barred = rows.filter((row) => !row.possible).length;
  const rest =
    barred === 0 ? "" : ` ${barred} of ${rows.length} pairings are not possible; the table says why.`;
  if (usable.length === 0) return `No collector can serve any network.${rest}`;
  const best = usable.reduce((top, row) => (row.useful_kWh_per_m2 > top.useful_kWh_per_m2 ? row : top));
  const hottest = extremes(usable.map((row) => row.meanFluid_C)).high;
  const there = usable
    .filter((row) => row.meanFluid_C === hottest)
    .reduce((top, row) => (row.useful_kWh_per_m2 > top.useful_kWh_per_m2 ? row : top));
  return `${best.collector} gives most, ${number(best.useful_kWh_per_m2)} kWh/m² a year at ${number(best.meanFluid_C)} °C; at the hottest, ${number(hottest)} °C, the best is ${there.collector} with ${number(there.useful_kWh_per_m2)} kWh/m².${rest}`;
}
