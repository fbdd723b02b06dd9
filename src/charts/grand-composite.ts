import { scaleLinear } from "d3-scale";
import { axisRoom, extremes, positionAxis, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { type ChartText, powerUnit } from "./chart-text.ts";
import { type Point, pointLine } from "./point-line.ts";
import { spread } from "./spread.ts";
import { fillOf, label, strokeOf, tag } from "./svg.ts";

export interface GrandCompositeData {
  /** Heat flow past shifted temperatures, hot to cool. */
  readonly cascade: readonly { readonly shifted_C: number; readonly heat_kW: number }[];
  readonly pinches_C: readonly number[];
  /** Networks with the shifted temperature of their supply and the heat that they can carry. */
  readonly networks: readonly {
    readonly name: string;
    readonly shifted_C: number;
    readonly heat_kW: number;
  }[];
  readonly beyond_kW: number;
}

/** What is still to be heated or cooled at each temperature once the streams have served each other. */
export function grandComposite(data: GrandCompositeData, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "At which temperature is outside heat wanted?");
  const { width, narrow, text } = settled;
  const most_kW = extremes(data.cascade.map(({ heat_kW }) => heat_kW)).high;
  const unit = powerUnit(most_kW);
  const box = { top: 30, bottom: 270 };
  const y = zeroBasedScale(
    [...data.cascade, ...data.networks].map(({ shifted_C }) => shifted_C),
    box,
  );
  const plot = { ...box, left: axisRoom(y, text), right: width - (narrow ? 14 : 24) };
  const x = scaleLinear([0, most_kW > 0 ? most_kW / unit.per : 1], [plot.left, plot.right]);
  const curve = data.cascade.map(({ shifted_C, heat_kW }): Point => [x(heat_kW / unit.per), y(shifted_C)]);
  const named = [...data.networks].sort((a, b) => b.shifted_C - a.shifted_C);
  const places = spread(
    named.map(({ shifted_C }) => y(shifted_C) - 5),
    15,
    plot.top,
    plot.bottom,
  );
  return finishChart(settled, {
    height: plot.bottom + 46,
    reading: readingOf(data, text),
    table: {
      columns: ["Shifted temperature, °C", "Heat flow past it, kW"],
      rows: data.cascade.map(({ shifted_C, heat_kW }) => [shifted_C, heat_kW]),
    },
    body: [
      valueAxis(y, plot, text, narrow ? "°C, shifted" : "°C, shifted by half the approach"),
      positionAxis(x, plot, text, `heat flow, ${unit.unit}`, narrow ? 4 : 7),
      ...named.map(({ shifted_C }) =>
        tag("path", {
          d: `M${plot.left} ${Math.round(y(shifted_C)) + 0.5}H${plot.right}`,
          ...strokeOf("direct", 1.2),
          "stroke-dasharray": "2 3",
        }),
      ),
      tag("path", { d: pointLine(curve), ...strokeOf("ink", 2.2) }),
      ...data.pinches_C.map((pinch) => tag("circle", { cx: x(0), cy: y(pinch), r: 4.5, ...fillOf("ink") })),
      ...data.pinches_C.map((pinch) => label(x(0) + 9, y(pinch) - 7, "pinch", { size: 12 })),
      ...named.map(({ name }, index) =>
        label(plot.right, places[index]!, name, { anchor: "end", halo: true, size: 12 }),
      ),
    ],
  });
}

function readingOf({ cascade, networks, beyond_kW }: GrandCompositeData, text: ChartText): string {
  const heating_kW = cascade[0]?.heat_kW ?? 0;
  const amount = (value_kW: number) => `${text.number(value_kW)} kW`;
  if (!(heating_kW > 0)) return "No heat is wanted from outside.";
  const parts = networks
    .filter(({ heat_kW }) => heat_kW > 0)
    .map(({ name, heat_kW }) => `${amount(heat_kW)} from ${name}`);
  const rest = beyond_kW > 0 ? [`${amount(beyond_kW)} from something hotter than every network here`] : [];
  return `${amount(heating_kW)} must come from outside, the coolest source first: ${[...parts, ...rest].join(", ")}.`;
}
