import { scaleLinear } from "d3-scale";
import { axisRoom, extremes, positionAxis, valueAxis, zeroBasedScale } from "./axes.ts";
import { bestLines } from "./best-lines.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import type { ChartText } from "./chart-text.ts";
import { keyRow } from "./key.ts";
import { dashOf } from "./point-line.ts";
import { label, strokeOf } from "./svg.ts";

export interface FilmLifeData {
  /** Lives that were tried. */
  readonly life_years: readonly number[];
  readonly curves: readonly {
    /** Per m² of aperture. */
    readonly filmPrice_per_m2: number;
    /** Levelised cost of heat collected, as long as `life_years`. */
    readonly cost_per_kWh: readonly number[];
    readonly best: { readonly life_years: number; readonly cost_per_kWh: number };
  }[];
}

/** Cost of heat against the years for which a film is kept, a line a film price; the cheapest life marked. */
export function filmLife(data: FilmLifeData, currency: string, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "After how many years does changing the film pay?");
  const { width, narrow, text } = settled;
  const { life_years, curves } = data;
  const unit = `${currency}/kWh`;
  const key = keyRow(
    curves.map((curve, index) => ({
      name: `film at ${text.number(curve.filmPrice_per_m2)} ${currency}/m²: ${text.number(curve.best.life_years)} years`,
      sample: { line: { ...strokeOf("ink", 1.8), "stroke-dasharray": dashOf(index) } },
    })),
    0,
    width,
  );
  const costs = curves.flatMap((curve) => curve.cost_per_kWh);
  // Films changed twice a year cost many times the least: what matters lies below thrice the dearest optimum.
  const cap = 3 * extremes(curves.map((curve) => curve.best.cost_per_kWh)).high;
  const shown = costs.filter((cost) => !(cap > 0) || cost <= cap);
  const top = key.height + 34;
  const blank = { top: 0, bottom: 1 };
  const left = axisRoom(zeroBasedScale(shown, blank), text);
  const plot = { left, right: width - 14, top, bottom: top + 200 };
  const y = zeroBasedScale(shown, plot);
  const longest = extremes(life_years).high;
  const x = scaleLinear([0, longest > 1e-6 ? longest : 1], [plot.left, plot.right]);
  return finishChart(settled, {
    height: plot.bottom + 46,
    reading: readingOf(data, text, unit, currency),
    table: {
      columns: [
        "Film life, years",
        ...curves.map((curve) => `Film at ${text.number(curve.filmPrice_per_m2)} ${currency}/m², ${unit}`),
      ],
      rows: [
        ...life_years.map((life, at) => [life, ...curves.map((curve) => curve.cost_per_kWh[at] ?? "–")]),
        ["cheapest life, years", ...curves.map((curve) => curve.best.life_years)],
      ],
    },
    body: [
      key.svg,
      label(0, key.height + 14, `cost of heat collected, ${unit}`, { tone: "soft", size: 12 }),
      valueAxis(y, plot, text, ""),
      positionAxis(x, plot, text, "years for which a film is kept", narrow ? 4 : 6),
      bestLines(
        curves.map((curve) => ({
          points: life_years.map((life, at): [number, number] => {
            const cost = curve.cost_per_kWh[at] ?? Number.NaN;
            return [x(life), cost <= y.domain()[1]! ? y(cost) : Number.NaN];
          }),
          best: [x(curve.best.life_years), y(curve.best.cost_per_kWh)],
        })),
      ),
    ],
  });
}

function readingOf({ curves, life_years }: FilmLifeData, text: ChartText, unit: string, currency: string) {
  if (curves.length === 0) return "There is no film price to compare.";
  const longest = extremes(life_years).high;
  const told = curves.map(({ filmPrice_per_m2, best }) => {
    const never = best.life_years >= longest ? "at least " : "";
    return `at ${text.number(filmPrice_per_m2)} ${currency}/m² ${never}${text.number(best.life_years)} years (${text.number(best.cost_per_kWh)} ${unit})`;
  });
  return `Heat is cheapest with a film that is kept, ${told.join("; ")}.`;
}
