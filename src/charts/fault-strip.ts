import { scaleLinear } from "d3-scale";
import { hourWords } from "../core/demand/quality/hour-words.ts";
import { ModelError } from "../core/errors.ts";
import { axisRoom, type Scale, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { stepLine } from "./step-path.ts";
import { fillOf, label, strokeOf, tag } from "./svg.ts";

export interface FaultStripData {
  /** The year as it was taken. */
  readonly values: Float64Array;
  readonly unit: string;
  /** Hours of the fault, first and last included. */
  readonly from: number;
  readonly to: number;
  /** What was noticed, in a sentence. */
  readonly sentence: string;
}

const around_h = 36;
const most_h = 21 * 24;

/** The hours round one fault of a load with the fault marked; of long faults the first three weeks. @throws ModelError SERIES_LENGTH */
export function faultStrip(data: FaultStripData, frame: ChartFrame): Chart {
  const { values, unit, from, to, sentence } = data;
  if (!(from >= 0 && from <= to && to < values.length))
    throw new ModelError("SERIES_LENGTH", `hours ${from} to ${to} of ${values.length}`);
  const settled = settleFrame(frame, `What was noticed at ${hourWords(from)}?`);
  const { width, narrow, text } = settled;
  const first = Math.max(0, from - around_h);
  const last = Math.min(values.length - 1, to + around_h, first + most_h - 1);
  const shown = values.slice(first, last + 1);
  const box = { top: 26, bottom: 126 };
  const y = zeroBasedScale([...shown], box);
  const plot = { ...box, left: axisRoom(y, text), right: width - 14 };
  const x: Scale = scaleLinear([first, last + 1], [plot.left, plot.right]);
  const markEnd = Math.min(to, last) + 1;
  const left = x(from);
  const markWidth = Math.max(3, x(markEnd) - left);
  const days = Math.ceil((last - first) / 24 / (narrow ? 3 : 6));
  const noons = Array.from(
    { length: Math.ceil((last - first) / 24) + 1 },
    (_, k) => (Math.ceil(first / 24) + k) * 24,
  );
  const ticks = noons.filter((hour, k) => hour <= last && k % days === 0);
  const cut = to > last ? ` The first ${Math.round(most_h / 24)} days of it are drawn.` : "";
  return finishChart(settled, {
    height: plot.bottom + 28,
    reading: `${sentence}${cut}`,
    table: {
      columns: ["Hour from", unit, "marked"],
      rows: Array.from(shown.subarray(0, 24 * 7), (value, k) => [
        hourWords(first + k),
        value,
        first + k >= from && first + k <= to ? "yes" : "",
      ]),
    },
    body: [
      tag("rect", {
        x: left,
        y: plot.top,
        width: markWidth,
        height: plot.bottom - plot.top,
        ...fillOf("inkSoft"),
        "fill-opacity": 0.25,
      }),
      valueAxis(y, plot, text, unit),
      ...ticks.map((hour) =>
        label(x(hour), plot.bottom + 20, hourWords(hour).replace(/ \d\d:00$/, ""), {
          anchor: hour - first < 12 ? "start" : x(hour) > plot.right - 30 ? "end" : "middle",
          tone: "soft",
          size: 12,
        }),
      ),
      tag("path", {
        d: stepLine(
          (k) => x(first + k),
          Float64Array.from(shown, (value) => y(value)),
        ),
        ...strokeOf("ink", 1.5),
      }),
    ],
  });
}
