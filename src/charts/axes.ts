import { type ScaleLinear, scaleLinear } from "d3-scale";
import type { ChartText } from "./chart-text.ts";
import { label, strokeOf, tag, textWidth } from "./svg.ts";

/** Where data are drawn, in pixels; top < bottom. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export type Scale = ScaleLinear<number, number>;

/** From zero (or the lowest, if below) to a round number; no data give 0 to 1. */
export function zeroBasedScale(
  values: Iterable<number>,
  plot: Pick<Plot, "top" | "bottom">,
  count = 4,
): Scale {
  const { low, high } = extremes(values);
  const bottom = Math.min(0, low);
  const top = Math.max(0, high);
  return scaleLinear()
    .domain(top - bottom > leastSpan ? [bottom, top] : [0, 1])
    .nice(count)
    .range([plot.bottom, plot.top]);
}

/** What varies by less is noise of arithmetic, not something to draw. */
export const leastSpan = 1e-9;

/** Least and greatest finite value; both 0 where there is none. */
export function extremes(values: Iterable<number>): { readonly low: number; readonly high: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return low <= high ? { low, high } : { low: 0, high: 0 };
}

/** Hairlines with numbers at the left, the unit above them; the zero line is drawn in ink. */
export function valueAxis(scale: Scale, plot: Plot, text: ChartText, unit: string, count = 4): string {
  const lines = scale.ticks(count).map((tick) => {
    const y = scale(tick);
    return (
      tag("path", {
        d: `M${plot.left} ${Math.round(y) + 0.5}H${plot.right}`,
        ...strokeOf(tick === 0 ? "inkSoft" : "rule", 1),
      }) + label(plot.left - 8, y + 4.5, text.number(tick, 6), { anchor: "end", tone: "soft", size: 12 })
    );
  });
  return lines.join("") + label(0, plot.top - 13, unit, { tone: "soft", size: 12 });
}

/** Room for the numbers of a value axis. */
export function axisRoom(scale: Scale, text: ChartText, count = 4): number {
  const widths = scale.ticks(count).map((tick) => textWidth(text.number(tick, 6), 12));
  return Math.ceil(Math.max(24, ...widths) + 10);
}

/** Numbers below the plot, with short ticks. */
export function positionAxis(scale: Scale, plot: Plot, text: ChartText, unit: string, count = 5): string {
  const marks = scale.ticks(count).map((tick) => {
    const x = scale(tick);
    return (
      tag("path", { d: `M${rounded(x)} ${plot.bottom + 1}v5`, ...strokeOf("inkSoft", 1) }) +
      label(x, plot.bottom + 20, text.number(tick, 6), { anchor: "middle", tone: "soft", size: 12 })
    );
  });
  return (
    marks.join("") + label(plot.right, plot.bottom + 38, unit, { anchor: "end", tone: "soft", size: 12 })
  );
}

const rounded = (x: number) => Math.round(x * 10) / 10;
