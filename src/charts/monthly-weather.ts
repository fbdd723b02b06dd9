import { scaleBand } from "d3-scale";
import { monthNames } from "../core/calendar.ts";
import type { WeatherYear } from "../core/weather.ts";
import { axisRoom, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { keyColumn, keyRow } from "./key.ts";
import { monthStarts, shortMonth } from "./months-of-year.ts";
import { fillOf, label, strokeOf, tag } from "./svg.ts";

/** Twelve figures each. */
export interface MonthlyWeather {
  readonly dni_kWh_m2: ArrayLike<number>;
  readonly ghi_kWh_m2: ArrayLike<number>;
  readonly dhi_kWh_m2: ArrayLike<number>;
  readonly ambient_C: ArrayLike<number>;
}

/** Sums of a weather year by month; a month with an hour missing is NaN. */
export function monthlyWeatherSums(weather: WeatherYear): MonthlyWeather {
  const perMonth = (series: Float64Array, per: (hours: number) => number) =>
    Float64Array.from(monthNames, (_, month) => {
      const hours = series.subarray(monthStarts[month]!, monthStarts[month + 1]!);
      return hours.reduce((sum, value) => sum + value, 0) / per(hours.length);
    });
  const thousand = () => 1000; // hourly W/m² to kWh/m²
  return {
    dni_kWh_m2: perMonth(weather.dni_W_m2, thousand),
    ghi_kWh_m2: perMonth(weather.ghi_W_m2, thousand),
    dhi_kWh_m2: perMonth(weather.dhi_W_m2, thousand),
    ambient_C: perMonth(weather.ambient_C, (hours) => hours),
  };
}

/** Direct normal irradiation by month as bars, global horizontal as a stroke, mean temperature in numbers. */
export function monthlyWeather(data: MonthlyWeather, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "How much sun does each month bring?");
  const { width, narrow, text } = settled;
  const months = monthNames.map((name, index) => ({
    name,
    dni: data.dni_kWh_m2[index] ?? Number.NaN,
    ghi: data.ghi_kWh_m2[index] ?? Number.NaN,
    dhi: data.dhi_kWh_m2[index] ?? Number.NaN,
    ambient_C: data.ambient_C[index] ?? Number.NaN,
  }));
  const entries = [
    { name: narrow ? "direct normal" : "direct normal (DNI)", sample: { area: fillOf("direct") } },
    { name: narrow ? "global horizontal" : "global horizontal", sample: { line: strokeOf("ink", 2.4) } },
  ];
  const key = narrow ? keyRow(entries, 0, width) : { svg: "", height: 0 };
  const box = { top: key.height + 30, bottom: key.height + 210 };
  const y = zeroBasedScale(
    months.flatMap((month) => [month.dni, month.ghi]),
    box,
  );
  const plot = { ...box, left: axisRoom(y, text), right: narrow ? width - 2 : width - 184 };
  const x = scaleBand<string>(monthNames, [plot.left, plot.right]).padding(0.18);
  const quiet = { anchor: "middle", tone: "soft", size: narrow ? 11 : 12 } as const;
  const bars = months.map((month, index) => {
    const left = x(month.name)!;
    const middle = left + x.bandwidth() / 2;
    const temperature = Number.isFinite(month.ambient_C) ? text.number(Math.round(month.ambient_C)) : "–";
    return [
      tag("rect", {
        x: left,
        y: y(month.dni),
        width: x.bandwidth(),
        height: y(0) - y(month.dni),
        ...fillOf("direct"),
      }),
      Number.isFinite(month.ghi)
        ? [strokeOf("ground", 5), strokeOf("ink", 2.4)]
            .map((stroke) =>
              tag("path", {
                d: `M${left.toFixed(1)} ${y(month.ghi).toFixed(1)}h${x.bandwidth().toFixed(1)}`,
                ...stroke,
              }),
            )
            .join("")
        : "",
      label(middle, plot.bottom + 19, narrow ? month.name[0]! : shortMonth(index + 1), quiet),
      label(middle, plot.bottom + 40, temperature, { ...quiet, tone: "ink" }),
    ].join("");
  });
  const note = "°C, mean of the month";
  return finishChart(settled, {
    height: plot.bottom + (narrow ? 66 : 52),
    reading: readingOf(months, text.number),
    table: {
      columns: ["Month", "DNI, kWh/m²", "GHI, kWh/m²", "DHI, kWh/m²", "Mean temperature, °C"],
      rows: months.map((month) => [
        month.name,
        ...[month.dni, month.ghi, month.dhi, month.ambient_C].map((value) =>
          Number.isFinite(value) ? value : "no data",
        ),
      ]),
    },
    body: [
      key.svg,
      valueAxis(y, plot, text, "kWh/m² a month"),
      ...bars,
      narrow
        ? label(plot.right, plot.bottom + 58, note, { anchor: "end", tone: "soft", size: 12 })
        : keyColumn(entries, plot.right + 18, plot.top + 8) +
          label(plot.right + 18, plot.bottom + 40, note, { tone: "soft", size: 12 }),
    ],
  });
}

function readingOf(
  months: readonly {
    readonly name: string;
    readonly dni: number;
    readonly ghi: number;
    readonly ambient_C: number;
  }[],
  number: (value: number) => string,
): string {
  const known = months.filter((month) => Number.isFinite(month.dni));
  if (known.length === 0) return "There are no irradiance figures.";
  const total = known.reduce((sum, month) => sum + month.dni, 0);
  const sorted = [...known].sort((a, b) => b.dni - a.dni);
  const [best, worst] = [sorted[0]!, sorted.at(-1)!];
  const span = known.length === 12 ? "The year" : `The ${known.length} months with figures`;
  return `${span} brings ${number(total)} kWh/m² of direct normal irradiation, most in ${best.name} (${number(best.dni)}) and least in ${worst.name} (${number(worst.dni)}).`.replace(
    "figures brings",
    "figures bring",
  );
}
