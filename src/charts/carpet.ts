import { monthNames } from "../core/calendar.ts";
import { ModelError } from "../core/errors.ts";
import { hoursPerYear } from "../core/series.ts";
import { extremes } from "./axes.ts";
import { carpetReading, carpetTable, levelReading, levelTable } from "./carpet-words.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { type CarpetScale, rampColours, rampStops } from "./colour-ramp.ts";
import { indexedPng, pngAddress } from "./indexed-png.ts";
import { monthStarts, shortMonth } from "./months-of-year.ts";
import { label, strokeOf, tag } from "./svg.ts";

export interface CarpetData {
  /** What is shown, as the reading says it, e.g. "Direct normal irradiance". */
  readonly name: string;
  /** 8760 hourly figures, none below zero unless `lowest` is given; NaN where there is none. */
  readonly values: Float64Array;
  readonly unit: string;
  readonly scale: CarpetScale;
  /** Value of the last colour, to compare carpets; the largest value unless given. */
  readonly highest?: number;
  /** Value of the first colour, 0 unless given: for figures such as temperatures, where zero means nothing. */
  readonly lowest?: number;
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
  const { lowest = 0 } = data;
  const given = data.highest ?? peak;
  const top = given > lowest ? given : peak > lowest ? peak : lowest + 1;

  const plot = { left: 28, right: width - 4, top: 26, bottom: 26 + 24 * (narrow ? 6 : 7) };
  const x = (day: number) => plot.left + (day / 365) * (plot.right - plot.left);
  const y = (hour: number) => plot.bottom - (hour / 24) * (plot.bottom - plot.top);
  const pixels = colourNumbers(values, lowest, top);
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
    ...(data.lowest === undefined
      ? {
          reading: carpetReading(data, peak, text.number),
          table: carpetTable(values, unit, peak),
        }
      : { reading: levelReading(data, text.number), table: levelTable(values, unit) }),
    body: [
      label(0, 11, "hour of day", strong),
      missing ? tag("rect", { ...frameOf(plot), fill: `url(#${settled.prefix}-hatch-spill)` }) : "",
      picture(pixels, 365, 24, data.scale, frameOf(plot)),
      ...hours,
      ...months,
      picture(strip, 128, 1, data.scale, { x: keyLeft, y: keyY, width: 190, height: 9 }),
      label(keyLeft, keyY + 23, text.number(lowest), strong),
      label(keyLeft + 95, keyY + 23, text.number((lowest + top) / 2), { ...strong, anchor: "middle" }),
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
function colourNumbers(values: Float64Array, lowest: number, top: number): Uint8Array {
  const pixels = new Uint8Array(hoursPerYear);
  for (let hour = 0; hour < hoursPerYear; hour += 1) {
    const value = values[hour]!;
    if (!Number.isFinite(value)) continue;
    const share = Math.min(1, Math.max(0, (value - lowest) / (top - lowest)));
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
