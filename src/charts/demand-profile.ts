import { scaleLinear } from "d3-scale";
import { ModelError } from "../core/errors.ts";
import { axisRoom, type Scale, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { keyColumn, keyRow } from "./key.ts";
import { stepLine } from "./step-path.ts";
import { label, strokeOf, tag } from "./svg.ts";

export interface ProfileData {
  readonly values: Float64Array;
  /** 1 Monday to 7 Sunday, of each value. */
  readonly weekday: ArrayLike<number>;
  /** Hour of day 0 to 23, of each value. */
  readonly hour: ArrayLike<number>;
  readonly unit: string;
}

const kinds = [
  { name: "Monday to Friday", days: [1, 2, 3, 4, 5], dash: undefined },
  { name: "Saturday", days: [6], dash: "7 4" },
  { name: "Sunday", days: [7], dash: "2 3" },
] as const;

/** Mean day of the demand on workdays, Saturdays and Sundays. @throws ModelError SERIES_LENGTH */
export function demandProfile(data: ProfileData, frame: ChartFrame): Chart {
  const n = data.values.length;
  if (data.weekday.length !== n || data.hour.length !== n) {
    throw new ModelError("SERIES_LENGTH", `${n}, ${data.weekday.length} and ${data.hour.length}`);
  }
  const settled = settleFrame(frame, "At which hours is heat wanted?");
  const { width, narrow, text } = settled;
  const means = kinds.map((kind) => meanDay(data, kind.days));
  const entries = kinds.map((kind) => ({
    name: kind.name,
    sample: { line: { ...strokeOf("ink", 2), "stroke-dasharray": kind.dash } },
  }));
  const key = narrow ? keyRow(entries, 0, width) : { svg: "", height: 0 };
  const box = { top: key.height + 30, bottom: key.height + 200 };
  const y = zeroBasedScale(
    means.flatMap((day) => [...day]),
    box,
  );
  const plot = { ...box, left: axisRoom(y, text), right: narrow ? width - 14 : width - 168 };
  const x: Scale = scaleLinear([0, 24], [plot.left, plot.right]);
  return finishChart(settled, {
    height: plot.bottom + 46,
    reading: readingOf(means, data.unit, text.number),
    table: {
      columns: ["Hour", ...kinds.map((kind) => `${kind.name}, ${data.unit}`)],
      rows: Array.from({ length: 24 }, (_, hour) => [
        `${hour}–${hour + 1}`,
        ...means.map((day) => (Number.isFinite(day[hour]) ? day[hour]! : "no data")),
      ]),
    },
    body: [
      key.svg,
      valueAxis(y, plot, text, data.unit),
      ...[0, 6, 12, 18, 24].map((hour) =>
        label(x(hour), plot.bottom + 20, `${hour}`, { anchor: "middle", tone: "soft", size: 12 }),
      ),
      label(plot.right, plot.bottom + 38, "hour of day", { anchor: "end", tone: "soft", size: 12 }),
      ...means.map((day, index) =>
        tag("path", {
          d: stepLine(
            (hour) => x(hour),
            day.map((value) => y(value)),
          ),
          ...strokeOf("ink", 2),
          "stroke-dasharray": kinds[index]!.dash,
        }),
      ),
      narrow ? "" : keyColumn(entries, plot.right + 18, plot.top + 8),
    ],
  });
}

/** 24 means over the finite values of the days named; NaN where there are none. */
function meanDay(data: ProfileData, days: readonly number[]): Float64Array {
  const sums = new Float64Array(24);
  const counts = new Float64Array(24);
  for (let index = 0; index < data.values.length; index += 1) {
    if (!Number.isFinite(data.values[index]) || !days.includes(data.weekday[index]!)) continue;
    sums[data.hour[index]!]! += data.values[index]!;
    counts[data.hour[index]!]! += 1;
  }
  return sums.map((sum, hour) => sum / counts[hour]!);
}

function readingOf(means: readonly Float64Array[], unit: string, number: (value: number) => string): string {
  const sentences = kinds.map((kind, index) => {
    const day = means[index]!;
    const known = day.filter(Number.isFinite);
    if (known.length === 0) return `${kind.name}: no data.`;
    const peak = known.reduce((top, value) => Math.max(top, value), Number.NEGATIVE_INFINITY);
    const mean = known.reduce((sum, value) => sum + value, 0) / known.length;
    const hour = day.indexOf(peak);
    return `${kind.name}: ${number(mean)} ${unit} in the mean, highest at ${hour}–${hour + 1} h with ${number(peak)} ${unit}.`;
  });
  return sentences.join(" ");
}
