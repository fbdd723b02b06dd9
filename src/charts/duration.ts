import { scaleLinear } from "d3-scale";
import { axisRoom, extremes, positionAxis, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import type { ChartText } from "./chart-text.ts";
import { pointLine } from "./point-line.ts";
import { label, strokeOf, tag } from "./svg.ts";

export interface DurationOf {
  /** As a sentence begins, e.g. "Wind". */
  readonly name: string;
  readonly unit: string;
  /** Hourly figures; hours without data are left out. */
  readonly values: Float64Array;
  /** Limits to be marked, e.g. the wind above which mirrors are stowed. */
  readonly limits?: readonly { readonly name: string; readonly at: number }[];
}

/** The hours of a year sorted by a figure, greatest first, with limits across and the hours above them. */
export function duration(data: DurationOf, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, `For how many hours is there how much ${data.name.toLowerCase()}?`);
  const { width, narrow, text } = settled;
  const order = data.values.filter(Number.isFinite).sort().reverse();
  const limits = data.limits ?? [];
  // Room above for the words of limits that lie close together.
  const top = 30 + 15 * Math.max(0, limits.length - 2);
  const box = { top, bottom: top + 200 };
  const y = zeroBasedScale([...extremesOf(order), ...limits.map(({ at }) => at)], box);
  const plot = { ...box, left: axisRoom(y, text), right: width - (narrow ? 14 : 24) };
  const x = scaleLinear([0, Math.max(1, order.length)], [plot.left, plot.right]);
  const stride = Math.max(1, Math.floor(order.length / 300));
  const line = Array.from(order.keys())
    .filter((place) => place < 24 || place % stride === 0 || place === order.length - 1)
    .map((place): [number, number] => [x(place), y(order[place]!)]);
  return finishChart(settled, {
    height: plot.bottom + 46,
    reading: readingOf(data, order, text),
    table: tableOf(data, order),
    body: [
      valueAxis(y, plot, text, data.unit),
      positionAxis(x, plot, text, "hours of the year", narrow ? 4 : 8),
      ...limits.map(({ at }) =>
        tag("path", {
          d: `M${plot.left} ${Math.round(y(at)) + 0.5}H${plot.right}`,
          ...strokeOf("direct", 1.5),
          "stroke-dasharray": "6 4",
        }),
      ),
      tag("path", { d: pointLine(line), ...strokeOf("ink", 2) }),
      ...labelled(limits, y).map(({ name, at, top }) =>
        label(plot.right, top, `${name}, ${text.number(at)} ${data.unit}`, {
          anchor: "end",
          size: 12,
          halo: true,
        }),
      ),
    ],
  });
}

/** Words above each limit's line; of lines too close for that, above the highest of them, in the lines' order. */
function labelled<L extends { readonly at: number }>(limits: readonly L[], y: (value: number) => number) {
  const heap: (L & { readonly top: number })[] = [];
  const placed: (L & { readonly top: number })[] = [];
  for (const limit of limits.toSorted((a, b) => a.at - b.at)) {
    // The words so far stand free of this line, or move above it.
    const highest = heap.at(-1)?.top ?? Number.POSITIVE_INFINITY;
    if (highest - wordHeight > y(limit.at)) placed.push(...heap.splice(0));
    const lowest = y(limit.at) - 6;
    const moved = [...heap, { ...limit, top: 0 }];
    heap.splice(0, heap.length, ...moved.map((each, n) => ({ ...each, top: lowest - wordHeight * n })));
  }
  return [...placed, ...heap];
}

const wordHeight = 15;

function extremesOf(order: Float64Array): number[] {
  const { low, high } = extremes(order);
  return [low, high];
}

function readingOf({ name, unit, limits = [] }: DurationOf, order: Float64Array, text: ChartText): string {
  if (order.length === 0) return `There are no data of ${name.toLowerCase()}.`;
  const median = order[order.length >> 1]!;
  const first = `${name} reaches ${text.number(order[0]!)} ${unit}; in half of the hours it is ${text.number(median)} ${unit} or more.`;
  const above = limits.map(({ name: limit, at }) => {
    const hours = order.filter((value) => value > at).length;
    return `${text.number(hours)} ${hours === 1 ? "hour lies" : "hours lie"} above ${text.number(at)} ${unit} (${limit})`;
  });
  return above.length === 0 ? first : `${first} ${above.join("; ")}.`;
}

function tableOf({ name, unit }: DurationOf, order: Float64Array) {
  const ranks = [1, 10, 100, ...Array.from({ length: 17 }, (_, index) => (index + 1) * 500), order.length];
  const kept = [...new Set(ranks)].filter((rank) => rank >= 1 && rank <= order.length).sort((a, b) => a - b);
  return {
    columns: ["Hours at or above", `${name}, ${unit}`],
    rows: kept.map((rank) => [rank, order[rank - 1]!]),
  };
}
