import { monthNames } from "../core/calendar.ts";
import { ModelError } from "../core/errors.ts";
import { hoursPerYear } from "../core/series.ts";
import { extremes } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { type CarpetScale, rampColours, rampStops } from "./colour-ramp.ts";
import { indexedPng, pngAddress } from "./indexed-png.ts";
import { hourName, monthStarts, shortMonth } from "./months-of-year.ts";
import { label, strokeOf, tag } from "./svg.ts";
import { leastThatCounts } from "./working-hours.ts";

export interface CarpetData {
  /** What is shown, as the reading says it, e.g. "Direct normal irradiance". */
  readonly name: string;
  /** 8760 hourly figures, none below zero; NaN where there is none. */
  readonly values: Float64Array;
  readonly unit: string;
  readonly scale: CarpetScale;
  /** Value of the last colour, to compare carpets; the largest value unless given. */
  readonly highest?: number;
}

const questions: Readonly<Record<CarpetScale, string>> = {
  sun: "When does the sun shine?",
  load: "When is heat wanted?",
  backup: "When must the backup run?",
  content: "How full is the store?",
};

/** A year as 24 rows by 365 columns of coloured hours, midnight at the foot. @throws ModelError SERIES_LENGTH */
export function carpet(data: CarpetData, frame: ChartFrame): Chart {
  const { values, unit } = data;
  if (values.length !== hoursPerYear) throw new ModelError("SERIES_LENGTH", `${values.length}`);
  const settled = settleFrame(frame, questions[data.scale]);
  const { width, narrow, text } = settled;
  const peak = extremes(values).high;
  const top = data.highest !== undefined && data.highest > 0 ? data.highest : peak > 0 ? peak : 1;

  const plot = { left: 28, right: width - 4, top: 26, bottom: 26 + 24 * (narrow ? 6 : 7) };
  const x = (day: number) => plot.left + (day / 365) * (plot.right - plot.left);
  const y = (hour: number) => plot.bottom - (hour / 24) * (plot.bottom - plot.top);
  const pixels = colourNumbers(values, top);
  const missing = pixels.includes(0);

  const hours = [0, 6, 12, 18, 24].map((hour) =>
    label(plot.left - 8, y(hour) + 4.5, `${hour}`, { anchor: "end", tone: "soft", size: 12 }),
  );
  const months = monthNames.map((month, index) => {
    const [start, end] = [monthStarts[index]! / 24, monthStarts[index + 1]! / 24];
    const tick = `M${Math.round(x(start) * 10) / 10} ${plot.bottom + 1}v6`;
    return (
      tag("path", { d: tick, ...strokeOf("inkSoft", 1) }) +
      label(x((start + end) / 2), plot.bottom + 19, narrow ? month[0]! : shortMonth(index + 1), {
        anchor: "middle",
        tone: "soft",
        size: 12,
      })
    );
  });
  const keyY = plot.bottom + 40;
  const keyLeft = plot.right - 190;
  const strip = Uint8Array.from({ length: 128 }, (_, index) => 1 + Math.round((254 * index) / 127));
  const strong = { tone: "soft", size: 12 } as const;
  return finishChart(settled, {
    height: keyY + 26,
    reading: carpetReading(data, peak, settled.text.number),
    table: carpetTable(values, unit, peak),
    body: [
      label(0, 11, "hour of day", strong),
      missing ? tag("rect", { ...frameOf(plot), fill: `url(#${settled.prefix}-hatch-spill)` }) : "",
      picture(pixels, 365, 24, data.scale, frameOf(plot)),
      ...hours,
      ...months,
      picture(strip, 128, 1, data.scale, { x: keyLeft, y: keyY, width: 190, height: 9 }),
      label(keyLeft, keyY + 23, "0", strong),
      label(keyLeft + 95, keyY + 23, text.number(top / 2), { ...strong, anchor: "middle" }),
      label(plot.right, keyY + 23, `${text.number(top)} ${unit}`, { ...strong, anchor: "end" }),
      missing ? label(plot.left, keyY + 8, "hatched: no data", strong) : "",
    ],
    hatches: missing ? ["spill"] : [],
  });
}

const frameOf = (plot: { left: number; right: number; top: number; bottom: number }) => ({
  x: plot.left,
  y: plot.top,
  width: plot.right - plot.left,
  height: plot.bottom - plot.top,
});

/** Row 0 is the last hour of the day; 0 stands for no data. */
function colourNumbers(values: Float64Array, top: number): Uint8Array {
  const pixels = new Uint8Array(hoursPerYear);
  for (let hour = 0; hour < hoursPerYear; hour += 1) {
    const value = values[hour]!;
    if (!Number.isFinite(value)) continue;
    const share = Math.min(1, Math.max(0, value / top));
    pixels[(23 - (hour % 24)) * 365 + Math.floor(hour / 24)] = 1 + Math.round(254 * share);
  }
  return pixels;
}

interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The picture twice, for light and for dark ground; the style sheet shows one. Alone, the light one shows. */
function picture(pixels: Uint8Array, columns: number, rows: number, scale: CarpetScale, area: Area): string {
  const image = (ground: "light" | "dark") =>
    tag("image", {
      ...area,
      preserveAspectRatio: "none",
      "image-rendering": "pixelated",
      class: `chart-on-${ground}`,
      display: ground === "dark" ? "none" : undefined,
      href: pngAddress(indexedPng(pixels, columns, rows, rampColours(rampStops[scale][ground]))),
    });
  return image("light") + image("dark");
}

function carpetReading(data: CarpetData, peak: number, number: (value: number) => string): string {
  const { values, name, unit } = data;
  const least = leastThatCounts(peak);
  let above = 0;
  let total = 0;
  let missing = 0;
  for (const value of values) {
    if (!Number.isFinite(value)) missing += 1;
    else if (value > least) {
      above += 1;
      total += value;
    }
  }
  const gap = missing > 0 ? ` ${missing} ${missing === 1 ? "hour has" : "hours have"} no data.` : "";
  if (above === 0) return `${name} is zero in every hour of the year.${gap}`;
  const when = hourName(values.indexOf(peak));
  return `${name} is above zero in ${number(above)} of ${number(hoursPerYear)} hours, with a mean of ${number(total / above)} ${unit} in those; the highest, ${number(peak)} ${unit}, falls on ${when}.${gap}`;
}

function carpetTable(values: Float64Array, unit: string, peak: number) {
  const least = leastThatCounts(peak);
  const rows = monthNames.map((name, index) => {
    const month = values.subarray(monthStarts[index]!, monthStarts[index + 1]!).filter(Number.isFinite);
    const mean = month.length === 0 ? "no data" : month.reduce((sum, value) => sum + value, 0) / month.length;
    return [
      name,
      mean,
      month.length === 0 ? "no data" : extremes(month).high,
      month.filter((value) => value > least).length,
    ];
  });
  return { columns: ["Month", `Mean, ${unit}`, `Highest, ${unit}`, "Hours above zero"], rows };
}
