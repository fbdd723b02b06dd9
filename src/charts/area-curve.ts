import { scaleLinear } from "d3-scale";
import type { AreaCurve, CurvePoint } from "../core/study/result.ts";
import { axisRoom, extremes, leastSpan, type Plot, positionAxis, type Scale, valueAxis } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { type ChartText, percent } from "./chart-text.ts";
import { pointLine } from "./point-line.ts";
import { spread } from "./spread.ts";
import { fillOf, label, onPaper, rounded, strokeOf, tag } from "./svg.ts";

/**
 * Solar fraction, fuel cost avoided and annual cost against aperture, for several stores: lines as the
 * simple controller runs the plant, rings where the program knows the year ahead.
 */
export function areaCurve(curve: AreaCurve, currency: string, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "How much solar area pays?");
  const { width, narrow, text } = settled;
  const lines = curve.lines.map((line, index) => ({
    name: storeName(line.storeFactor, text),
    dash: line.storeFactor === 1 ? undefined : (["2 3", "7 4", "10 3 2 3", "4 2"] as const)[index % 4],
    strong: line.storeFactor === 1,
    points: [...line.points].sort((a, b) => a.aperture_m2 - b.aperture_m2),
  }));
  const { optimum, optimumReplay, chosen, chosenBound } = curve;
  const marked = [
    { point: optimumReplay, foresight: optimum },
    ...(chosen === null ? [] : [{ point: chosen, foresight: chosenBound }]),
  ];
  const bound = [...curve.bound].sort((a, b) => a.aperture_m2 - b.aperture_m2);
  const points = [
    ...lines.flatMap((line) => line.points),
    ...bound,
    ...marked.flatMap(({ point, foresight }) => (foresight === null ? [point] : [point, foresight])),
  ];

  const panels = [
    {
      heading: "Solar fraction, %",
      of: (point: CurvePoint) => 100 * point.solarFraction,
      zero: true,
      height: 150,
    },
    {
      heading: `Fuel cost avoided, ${currency} a year`,
      of: (point: CurvePoint) => point.fuelCostAvoided,
      zero: true,
      height: 120,
    },
    {
      heading: `Annual cost, ${currency} a year`,
      of: (point: CurvePoint) => point.annualCost,
      zero: false,
      height: 140,
    },
  ].map((panel) => {
    const scale = panelScale(points.map(panel.of), panel.zero);
    const cut = !panel.zero && scale.domain()[0]! > 0;
    return {
      ...panel,
      heading: cut ? `${panel.heading} (axis does not begin at zero)` : panel.heading,
      scale,
    };
  });
  const left = Math.max(...panels.map((panel) => axisRoom(panel.scale, text)));
  const right = narrow ? width - 84 : width - 108;
  const widest = extremes(points.map((point) => point.aperture_m2)).high;
  const x = scaleLinear([0, widest > 1e-6 ? widest : 1], [left, right]);

  const marks = marked.map(({ point }, index) => {
    const at = x(point.aperture_m2);
    const words = `${index === 0 ? "● least cost" : "◆ chosen"}: ${text.number(point.aperture_m2)} m²`;
    const anchor = at > (left + right) / 2 ? "end" : "start";
    return label(anchor === "end" ? at + 5 : at - 5, 12 + index * 19, words, { anchor });
  });
  let top = 12 + marked.length * 19;
  const plots: Plot[] = [];
  const body: string[] = [];
  let plot: Plot = { left, right, top, bottom: top };
  for (const panel of panels) {
    plot = { left, right, top: top + 32, bottom: top + 32 + panel.height };
    plots.push(plot);
    const y = panel.scale.copy().range([plot.bottom, plot.top]);
    body.push(valueAxis(y, plot, text, panel.heading));
    const ends: { readonly name: string; readonly y: number; readonly strong: boolean }[] = [];
    const seen = bound.map((point): [number, number] => [x(point.aperture_m2), y(panel.of(point))]);
    body.push(tag("path", { d: pointLine(seen), ...strokeOf("inkSoft", 0.8) }));
    const last = seen.filter(([, height]) => onPaper(height)).at(-1);
    // While the bound is being found its last point may lie far from the words at the edge.
    if (last !== undefined && last[0] > right - 0.2 * (right - left))
      ends.push({ name: "○ bound", y: last[1], strong: false });
    for (const line of lines) {
      const path = line.points.map((point): [number, number] => [x(point.aperture_m2), y(panel.of(point))]);
      const drawn = path.filter(([, height]) => onPaper(height));
      body.push(
        tag("path", {
          d: pointLine(path),
          ...strokeOf(line.strong ? "ink" : "inkSoft", line.strong ? 2.2 : 1.6),
          "stroke-dasharray": line.dash,
        }),
      );
      if (drawn.length > 0) ends.push({ name: line.name, y: drawn.at(-1)![1], strong: line.strong });
    }
    const places = spread(
      ends.map((end) => end.y),
      17,
      plot.top - 6,
      plot.bottom + 4,
    );
    ends.forEach((end, index) => {
      body.push(
        label(right + 10, places[index]! + 4.5, end.name, end.strong ? { weight: 600 } : { tone: "soft" }),
      );
    });
    for (const point of bound) body.push(ring(x(point.aperture_m2), y(panel.of(point))));
    marked.forEach(({ point, foresight }, index) => {
      const [px, py] = [x(point.aperture_m2), y(panel.of(point))];
      if (foresight !== null) {
        const fy = y(panel.of(foresight));
        body.push(gap(px, py, fy), index === 0 ? ring(px, fy) : diamond(px, fy, false));
      }
      body.push(index === 0 ? dot(px, py) : diamond(px, py, true));
    });
    top = plot.bottom + 14;
  }
  const guides = marked.map(({ point }) => {
    const at = x(point.aperture_m2);
    if (!onPaper(at)) return "";
    // Not through the headings of the panels.
    const d = plots.map(({ top: from, bottom }) => `M${Math.round(at) + 0.5} ${from}V${bottom}`).join("");
    return tag("path", { d, ...strokeOf("inkSoft", 0.8), "stroke-dasharray": "1 3" });
  });
  const foot = plot.bottom + 64;
  const keys = keysOf(curve, narrow);
  return finishChart(settled, {
    height: foot + 18 * (keys.length - 1) + 10,
    reading: readingOf(curve, text, currency),
    table: {
      columns: [
        "Line",
        "Aperture, m²",
        "Store, kWh",
        "Solar fraction",
        `Fuel cost avoided, ${currency}`,
        `Annual cost, ${currency}`,
        "Spilled, kWh",
      ],
      rows: [
        ...lines.flatMap((line) => line.points.map((point) => rowOf(line.name, point))),
        ...bound.map((point) => rowOf("bound", point)),
        rowOf("least cost", optimumReplay),
        rowOf("least cost, foresight", optimum),
        ...(chosen === null ? [] : [rowOf("chosen", chosen)]),
        ...(chosenBound === null ? [] : [rowOf("chosen, foresight", chosenBound)]),
      ],
    },
    body: [
      ...guides,
      ...body,
      ...marks,
      positionAxis(x, plot, text, "m² of aperture", narrow ? 4 : 6),
      ...keys.map(({ sign, words }, index) => {
        const y = foot + 18 * index;
        const drawn =
          sign === "line"
            ? tag("path", { d: `M${left - 8} ${y - 4}h18`, ...strokeOf("ink", 2.2) })
            : ring(left + 1, y - 4);
        return drawn + label(left + 16, y, words, { tone: "soft", size: 12 });
      }),
    ],
  });
}

function panelScale(values: readonly number[], fromZero: boolean): Scale {
  const { low, high } = extremes(values);
  // A cost that hardly changes would be a flat line from zero; its own range shows the least.
  // A trace below zero, as where chillers run without sun, is not worth a step of the axis.
  const bottom = fromZero ? (low < -0.03 * high ? low : 0) : low - 0.05 * (high - low);
  return scaleLinear()
    .domain(
      high - bottom > leastSpan * Math.max(1, Math.abs(high))
        ? [bottom, high]
        : [Math.min(0, bottom), Math.max(1, high)],
    )
    .nice(4);
}

function storeName(factor: number, text: ChartText): string {
  if (factor === 0) return "no store";
  return `store × ${factor === 0.5 ? "½" : text.number(factor)}`;
}

interface KeyEntry {
  readonly sign: "line" | "ring";
  readonly words: string;
}

function keysOf({ bound, boundAt_m2, optimum }: AreaCurve, narrow: boolean): KeyEntry[] {
  const found = bound.length < boundAt_m2.length ? ` (${bound.length} of ${boundAt_m2.length} found)` : "";
  const rings = bound.length > 0 || Number.isFinite(optimum.annualCost);
  return [
    {
      sign: "line",
      words: narrow
        ? "hour by hour, without foresight"
        : "run hour by hour without foresight, in the proportions of the least cost",
    },
    ...(rings
      ? [
          {
            sign: "ring" as const,
            words: narrow
              ? `bound: least cost with foresight${found}`
              : `bound: least cost with perfect foresight, all sizes chosen anew at this total${found}`,
          },
        ]
      : []),
  ];
}

const dot = (cx: number, cy: number) => tag("circle", { cx, cy, r: 5, ...fillOf("ink") });

const hollow = {
  ...fillOf("ground"),
  class: "chart-line-ink chart-fill-ground",
  stroke: strokeOf("ink").stroke,
  "stroke-width": 1.3,
};

const ring = (cx: number, cy: number) => tag("circle", { cx, cy, r: 3.6, ...hollow });

/** What foresight would be worth, from one mark to the other. */
function gap(x: number, from: number, to: number): string {
  if (!onPaper(x) || !onPaper(from) || !onPaper(to)) return "";
  return tag("path", { d: `M${rounded(x)} ${rounded(from)}V${rounded(to)}`, ...strokeOf("ink", 1.3) });
}

function diamond(x: number, y: number, solid: boolean): string {
  if (!onPaper(x) || !onPaper(y)) return "";
  const corner = Math.round(y * 10) / 10 - (solid ? 6.5 : 5);
  const side = solid ? 6.5 : 5;
  return tag("path", {
    d: `M${Math.round(x * 10) / 10} ${corner}l${side} ${side}l-${side} ${side}l-${side} -${side}Z`,
    ...(solid ? fillOf("store") : hollow),
  });
}

const rowOf = (name: string, point: CurvePoint): (string | number)[] => [
  name,
  point.aperture_m2,
  point.store_kWh,
  point.solarFraction,
  point.fuelCostAvoided,
  point.annualCost,
  point.spilled_kWh,
];

function readingOf(curve: AreaCurve, text: ChartText, currency: string): string {
  const { optimum, optimumReplay, chosen, chosenBound, lines } = curve;
  // Costs near the least differ little: a fourth digit shows it.
  const money = (value: number) => `${text.number(value, 4)} ${currency}`;
  const area = (point: CurvePoint) => `${text.number(point.aperture_m2)} m²`;
  const worth = (controlled: CurvePoint, foreseen: CurvePoint) => {
    const saved = controlled.annualCost - foreseen.annualCost;
    return saved > 5e-4 * Math.abs(controlled.annualCost)
      ? `perfect foresight would reach ${percent(text, foreseen.solarFraction)} and save ${text.number(saved)} ${currency} a year more`
      : "perfect foresight would save next to nothing more";
  };
  const sentences = [
    `Run hour by hour without foresight, the plant of least cost, ${area(optimumReplay)}, reaches a solar fraction of ` +
      `${percent(text, optimumReplay.solarFraction)}, avoids ${money(optimumReplay.fuelCostAvoided)} of fuel cost and costs ` +
      `${money(optimumReplay.annualCost)} a year; ${worth(optimumReplay, optimum)}.`,
  ];
  const cheapest = cheapestOf(lines);
  if (cheapest !== null && cheapest.point.annualCost < 0.999 * optimumReplay.annualCost)
    sentences.push(
      `Of the sizes drawn, the cheapest without foresight is ${area(cheapest.point)} with ${storeName(cheapest.storeFactor, text)}, at ${money(cheapest.point.annualCost)} a year.`,
    );
  if (chosen !== null)
    sentences.push(
      `The chosen ${area(chosen)} give ${percent(text, chosen.solarFraction)} at ${money(chosen.annualCost)} a year${chosenBound === null ? "" : `; ${worth(chosen, chosenBound)}`}.`,
    );
  const unmet = lines.flatMap(({ points }) => points).filter(({ unmet_kWh }) => unmet_kWh > 1).length;
  if (unmet > 0)
    sentences.push(
      `${unmet === 1 ? "One size leaves" : `${unmet} sizes leave`} heat unmet, which costs nothing here.`,
    );
  return sentences.join(" ");
}

function cheapestOf(lines: AreaCurve["lines"]) {
  let least: { readonly storeFactor: number; readonly point: CurvePoint } | null = null;
  for (const { storeFactor, points } of lines)
    for (const point of points)
      if (least === null || point.annualCost < least.point.annualCost) least = { storeFactor, point };
  return least;
}
