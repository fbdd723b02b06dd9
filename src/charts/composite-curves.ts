import { scaleLinear } from "d3-scale";
import { axisRoom, extremes, positionAxis, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { type ChartText, powerUnit } from "./chart-text.ts";
import { type Point, pointLine } from "./point-line.ts";
import { label, strokeOf, tag } from "./svg.ts";

interface HeatPoint {
  readonly temperature_C: number;
  readonly heat_kW: number;
}

export interface CompositeData {
  /** Cool to warm; empty where there is no such stream. */
  readonly hot: readonly HeatPoint[];
  /** Moved right so far that the curves stand at their least approach. */
  readonly cold: readonly HeatPoint[];
  readonly heating_kW: number;
  readonly cooling_kW: number;
  /** Shifted temperatures of the pinches. */
  readonly pinches_C: readonly number[];
}

/** What all hot streams give and all cold ones take, by temperature: where they overlap they can serve each other. */
export function compositeCurves(data: CompositeData, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "How much heat could the factory’s streams give each other?");
  const { width, narrow, text } = settled;
  const points = [...data.hot, ...data.cold];
  const most_kW = extremes(points.map(({ heat_kW }) => heat_kW)).high;
  const unit = powerUnit(most_kW);
  const box = { top: 46, bottom: 266 };
  const y = zeroBasedScale(
    points.map(({ temperature_C }) => temperature_C),
    box,
  );
  const plot = { ...box, left: axisRoom(y, text), right: width - (narrow ? 14 : 24) };
  const x = scaleLinear([0, most_kW > 0 ? most_kW / unit.per : 1], [plot.left, plot.right]);
  const drawn = (curve: readonly HeatPoint[]) =>
    curve.map(({ temperature_C, heat_kW }): Point => [x(heat_kW / unit.per), y(temperature_C)]);
  const curves = [
    { name: "hot streams", points: drawn(data.hot), meaning: "store", dash: undefined, side: -1 },
    { name: "cold streams", points: drawn(data.cold), meaning: "cold", dash: "7 4", side: 1 },
  ] as const;
  const targets = `heating ${amount(data.heating_kW, text)}, cooling ${amount(data.cooling_kW, text)}`;
  return finishChart(settled, {
    height: plot.bottom + 46,
    reading: readingOf(data, text),
    table: {
      columns: ["Curve", "Temperature, °C", "Heat, kW"],
      rows: [
        ...data.hot.map((point) => ["hot streams", point.temperature_C, point.heat_kW]),
        ...data.cold.map((point) => ["cold streams", point.temperature_C, point.heat_kW]),
      ],
    },
    body: [
      valueAxis(y, plot, text, "°C"),
      positionAxis(x, plot, text, `heat, ${unit.unit}`, narrow ? 4 : 7),
      label(plot.right, plot.top - 13, targets, { anchor: "end", tone: "soft", size: 12 }),
      ...curves.map((curve) =>
        tag("path", {
          d: pointLine(curve.points),
          ...strokeOf(curve.meaning, 2.2),
          "stroke-dasharray": curve.dash,
        }),
      ),
      ...curves.map(({ name, points: own, side }) => {
        if (own.length < 2) return "";
        // The hot curve lies above the cold one: each name stands on the outer side of its own.
        const [a, b] = middlePiece(own);
        return label((a[0] + b[0]) / 2 + side * 8, (a[1] + b[1]) / 2 + (side < 0 ? -4 : 14), name, {
          anchor: side < 0 ? "end" : "start",
          halo: true,
        });
      }),
    ],
  });
}

/** The widest piece of a line, for a label beside it. */
function middlePiece(points: readonly Point[]): readonly [Point, Point] {
  let best: readonly [Point, Point] = [points[0]!, points[1]!];
  points.slice(1).forEach((point, i) => {
    const before = points[i]!;
    if (Math.abs(point[0] - before[0]) > Math.abs(best[1][0] - best[0][0])) best = [before, point];
  });
  return best;
}

function amount(value_kW: number, text: ChartText): string {
  return `${text.number(value_kW)} kW`;
}

function readingOf({ hot, cold, heating_kW, cooling_kW, pinches_C }: CompositeData, text: ChartText): string {
  const all_kW = (cold.at(-1)?.heat_kW ?? 0) - (cold[0]?.heat_kW ?? 0);
  if (cold.length === 0)
    return hot.length === 0
      ? "There is no stream."
      : "Nothing is to be heated; all heat must be cooled away.";
  const recovered = `Of ${amount(all_kW, text)} to be heated, the hot streams can give up to ${amount(all_kW - heating_kW, text)}; ${amount(heating_kW, text)} must come from outside and ${amount(cooling_kW, text)} must be cooled away`;
  const at = pinches_C.map((pinch) => text.number(pinch)).join(" and ");
  return pinches_C.length === 0
    ? `${recovered}.`
    : `${recovered}. The curves are closest about ${at} °C, between hot and cold.`;
}
