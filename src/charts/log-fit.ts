import { scaleLinear } from "d3-scale";
import { axisRoom, type Scale, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { keyRow } from "./key.ts";
import { weekdayNames } from "./months-of-year.ts";
import { stepLine } from "./step-path.ts";
import { label, strokeOf, tag } from "./svg.ts";

export interface LogFitData {
  /** 8760 logged rates, NaN where nothing was logged. */
  readonly logged: Float64Array;
  /** What the fit says of the same hours. */
  readonly model: Float64Array;
  /** 1 Monday to 7 Sunday and hour of day of each hour, on the log's own dates. */
  readonly weekday: ArrayLike<number>;
  readonly hour: ArrayLike<number>;
  readonly unit: string;
}

/** The mean week of the logged hours beside the mean of the fit in the same hours. */
export function logFit(data: LogFitData, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "Does the calendar fit the log?");
  const { width, text } = settled;
  const logged = meanWeek(data.logged, data);
  const model = meanWeek(data.model, data);
  const lines = [
    { name: "logged, mean week", week: logged, dash: undefined },
    { name: "calendar fitted to it", week: model, dash: "6 4" },
  ];
  const key = keyRow(
    lines.map(({ name, dash }) => ({
      name,
      sample: { line: { ...strokeOf(dash === undefined ? "ink" : "direct", 2), "stroke-dasharray": dash } },
    })),
    0,
    width,
  );
  const box = { top: key.height + 30, bottom: key.height + 190 };
  const y = zeroBasedScale([...logged, ...model], box);
  const plot = { ...box, left: axisRoom(y, text), right: width - 4 };
  const x: Scale = scaleLinear([0, 168], [plot.left, plot.right]);
  const days = weekdayNames.map((name, day) =>
    label(x(day * 24 + 12), plot.bottom + 19, name, { anchor: "middle", tone: "soft", size: 12 }),
  );
  return finishChart(settled, {
    height: plot.bottom + 30,
    reading: readingOf(logged, model, data.unit, text.number),
    table: {
      columns: ["Day", "Hour", `Logged, ${data.unit}`, `Calendar, ${data.unit}`],
      rows: Array.from(logged.keys(), (at) => [
        weekdayNames[Math.floor(at / 24)]!,
        `${at % 24}–${(at % 24) + 1}`,
        shown(logged[at]!),
        shown(model[at]!),
      ]),
    },
    body: [
      key.svg,
      valueAxis(y, plot, text, data.unit),
      ...days,
      ...lines.map(({ week, dash }) =>
        tag("path", {
          d: stepLine(
            (at) => x(at),
            [...week].map((value) => y(value)),
          ),
          ...strokeOf(dash === undefined ? "ink" : "direct", 2),
          "stroke-dasharray": dash,
        }),
      ),
    ],
  });
}

const shown = (value: number) => (Number.isFinite(value) ? value : "no data");

/** 168 means over the logged hours, Monday 0:00 first; NaN where there are none. */
function meanWeek(values: Float64Array, { logged, weekday, hour }: LogFitData): Float64Array {
  const sums = new Float64Array(168);
  const counts = new Float64Array(168);
  for (let t = 0; t < logged.length; t += 1) {
    if (Number.isNaN(logged[t])) continue;
    const at = (weekday[t]! - 1) * 24 + hour[t]!;
    sums[at]! += values[t]!;
    counts[at]! += 1;
  }
  return sums.map((sum, at) => sum / counts[at]!);
}

function readingOf(
  logged: Float64Array,
  model: Float64Array,
  unit: string,
  number: (value: number) => string,
): string {
  let [worst, at] = [-1, 0];
  logged.forEach((value, hour) => {
    const apart = Math.abs(value - model[hour]!);
    if (apart > worst) [worst, at] = [apart, hour];
  });
  if (worst < 0) return "Nothing was logged.";
  const place = `${weekdayNames[Math.floor(at / 24)]} ${at % 24}–${(at % 24) + 1} h`;
  return `In the mean week the calendar is furthest from the log on ${place}: ${number(model[at]!)} against ${number(logged[at]!)} ${unit}.`;
}
