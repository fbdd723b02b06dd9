import { type ChartText, plainText } from "./chart-text.ts";
import { hatchDefinitions } from "./hatches.ts";
import type { Meaning } from "./palette.ts";
import { escapeText, tag, textSize } from "./svg.ts";

export interface Chart {
  /** The question that the chart answers. */
  readonly title: string;
  readonly svg: string;
  /** The answer in a sentence, made from the data. */
  readonly reading: string;
  readonly table: ChartTable;
}

export interface ChartTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** What every chart takes besides its data. */
export interface ChartFrame {
  /** Begins every id in the SVG; one page must not use it twice. */
  readonly prefix: string;
  readonly title?: string;
  /** Drawing width in CSS pixels; from 320. Below 520 words move above the plot. */
  readonly width?: number;
  readonly text?: ChartText;
}

export interface SettledFrame {
  readonly prefix: string;
  readonly title: string;
  readonly width: number;
  readonly narrow: boolean;
  readonly text: ChartText;
}

export const wideWidth = 680;
export const narrowWidth = 350;

export function settleFrame(frame: ChartFrame, question: string): SettledFrame {
  const width = Math.max(320, frame.width ?? wideWidth);
  return {
    prefix: `c-${frame.prefix.replace(/[^A-Za-z0-9_-]/g, "-")}`,
    title: frame.title ?? question,
    width,
    narrow: width < 520,
    text: frame.text ?? plainText(),
  };
}

export interface Drawing {
  readonly height: number;
  readonly reading: string;
  readonly table: ChartTable;
  readonly body: readonly string[];
  readonly hatches?: readonly Meaning[];
}

/** Puts a drawing into an SVG that stands alone: role, title, text equivalent, hatches. */
export function finishChart(frame: SettledFrame, drawing: Drawing): Chart {
  const { prefix, title, width } = frame;
  const height = Math.ceil(drawing.height);
  const hatches = hatchDefinitions(prefix, drawing.hatches ?? []);
  const svg = tag(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: "chart",
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: "img",
      "aria-labelledby": `${prefix}-title`,
      "aria-describedby": `${prefix}-desc`,
      "font-family": "system-ui, sans-serif",
      "font-size": textSize,
    },
    tag("title", { id: `${prefix}-title` }, escapeText(title)),
    tag("desc", { id: `${prefix}-desc` }, escapeText(drawing.reading)),
    hatches === "" ? "" : tag("defs", {}, hatches),
    ...drawing.body,
  );
  return { title, svg, reading: drawing.reading, table: drawing.table };
}

/**
 * The same chart for wide and for narrow screens; the style sheet shows one of the two and hides the
 * other from sight and from screen readers alike.
 */
export function forBothWidths(frame: ChartFrame, draw: (frame: ChartFrame) => Chart): Chart {
  const wide = draw({ ...frame, width: frame.width ?? wideWidth });
  const narrow = draw({ ...frame, prefix: `${frame.prefix}-narrow`, width: narrowWidth });
  const classed = (svg: string, name: string) => svg.replace('class="chart"', `class="chart ${name}"`);
  return { ...wide, svg: classed(wide.svg, "chart-wide") + classed(narrow.svg, "chart-narrow") };
}
