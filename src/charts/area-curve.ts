import { scaleLinear } from "d3-scale";
import type { AreaCurve, CurvePoint } from "../core/study/result.ts";
import { axisRoom, extremes, leastSpan, type Plot, positionAxis, type Scale, valueAxis } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { type ChartText, percent } from "./chart-text.ts";
import { pointLine } from "./point-line.ts";
import { spread } from "./spread.ts";
import { fillOf, label, onPaper, strokeOf, tag } from "./svg.ts";

/** Solar fraction, fuel cost avoided and annual cost against aperture, for several stores. */
export function areaCurve(curve: AreaCurve, currency: string, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "How much solar area pays?");
  const { width, narrow, text } = settled;
  const lines = curve.lines.map((line, index) => ({
    name: storeName(line.storeFactor, text),
    dash: line.storeFactor === 1 ? undefined : (["2 3", "7 4", "10 3 2 3", "4 2"] as const)[index % 4],
    strong: line.storeFactor === 1,
    points: [...line.points].sort((a, b) => a.aperture_m2 - b.aperture_m2),
  }));
  const marked = curve.chosen === null ? [curve.optimum] : [curve.optimum, curve.chosen];
  const points = [...lines.flatMap((line) => line.points), ...curve.bound, ...marked];

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

  const marks = marked.map((point, index) => {
    const at = x(point.aperture_m2);
    const words = `${index === 0 ? "● least cost" : "◆ chosen"}: ${text.number(point.aperture_m2)} m²`;
    const anchor = at > (left + right) / 2 ? "end" : "start";
    return label(anchor === "end" ? at + 5 : at - 5, 12 + index * 19, words, { anchor });
  });
  let top = 12 + marked.length * 19;
  const firstTop = top;
  const body: string[] = [];
  let plot: Plot = { left, right, top, bottom: top };
  for (const panel of panels) {
    plot = { left, right, top: top + 32, bottom: top + 32 + panel.height };
    const y = panel.scale.copy().range([plot.bottom, plot.top]);
    body.push(valueAxis(y, plot, text, panel.heading));
    const ends: { readonly name: string; readonly y: number; readonly strong: boolean }[] = [];
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
    for (const point of curve.bound) {
      body.push(circle(x(point.aperture_m2), y(panel.of(point)), false));
    }
    marked.forEach((point, index) => {
      const [px, py] = [x(point.aperture_m2), y(panel.of(point))];
      body.push(index === 0 ? circle(px, py, true) : diamond(px, py));
    });
    top = plot.bottom + 14;
  }
  const guides = marked.map((point) =>
    onPaper(x(point.aperture_m2))
      ? tag("path", {
          d: `M${Math.round(x(point.aperture_m2)) + 0.5} ${firstTop + 4}V${plot.bottom}`,
          ...strokeOf("inkSoft", 0.8),
          "stroke-dasharray": "1 3",
        })
      : "",
  );
  const foot = plot.bottom + 62;
  return finishChart(settled, {
    height: curve.bound.length > 0 ? foot + 10 : plot.bottom + 46,
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
        ...curve.bound.map((point) => rowOf("bound", point)),
        rowOf("least cost", curve.optimum),
        ...(curve.chosen === null ? [] : [rowOf("chosen", curve.chosen)]),
      ],
    },
    body: [
      ...guides,
      ...body,
      ...marks,
      positionAxis(x, plot, text, "m² of aperture", narrow ? 4 : 6),
      curve.bound.length > 0
        ? circle(left + 4, foot - 4, false) +
          label(
            left + 14,
            foot,
            narrow
              ? "bound: area shared out anew"
              : "bound: the area shared out anew among collectors at this total",
            { tone: "soft", size: 12 },
          )
        : "",
    ],
  });
}

function panelScale(values: readonly number[], fromZero: boolean): Scale {
  const { low, high } = extremes(values);
  // A cost that hardly changes would be a flat line from zero; its own range shows the least.
  const bottom = fromZero ? Math.min(0, low) : low - 0.05 * (high - low);
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

function circle(cx: number, cy: number, solid: boolean): string {
  const fill = solid
    ? fillOf("ink")
    : {
        ...fillOf("ground"),
        class: "chart-line-ink chart-fill-ground",
        stroke: strokeOf("ink").stroke,
        "stroke-width": 1.3,
      };
  return tag("circle", { cx, cy, r: solid ? 5 : 3.6, ...fill });
}

function diamond(x: number, y: number): string {
  if (!onPaper(x) || !onPaper(y)) return "";
  const corner = Math.round(y * 10) / 10 - 6.5;
  return tag("path", {
    d: `M${Math.round(x * 10) / 10} ${corner}l6.5 6.5l-6.5 6.5l-6.5 -6.5Z`,
    ...fillOf("store"),
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
  const { optimum, chosen } = curve;
  // Costs near the least differ little: a fourth digit shows it.
  const money = (value: number) => `${text.number(value, 4)} ${currency}`;
  const least = `The least annual cost, ${money(optimum.annualCost)}, lies at ${text.number(optimum.aperture_m2)} m² with a solar fraction of ${percent(text, optimum.solarFraction)}`;
  if (chosen === null) return `${least}, which avoids ${money(optimum.fuelCostAvoided)} of fuel cost a year.`;
  return `${least}; the chosen ${text.number(chosen.aperture_m2)} m² give ${percent(text, chosen.solarFraction)} at ${money(chosen.annualCost)} a year.`;
}
