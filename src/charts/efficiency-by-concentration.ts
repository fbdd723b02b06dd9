import { scaleLog } from "d3-scale";
import { axisRoom, valueAxis, zeroBasedScale } from "./axes.ts";
import { bestLines } from "./best-lines.ts";
import { type Chart, type ChartFrame, type ChartTable, finishChart, settleFrame } from "./chart.ts";
import { type ChartText, percent } from "./chart-text.ts";
import { keyRow } from "./key.ts";
import { dashOf } from "./point-line.ts";
import { label, onPaper, rounded, strokeOf, tag } from "./svg.ts";

export interface ConcentrationCurve {
  readonly meanFluid_C: number;
  readonly slopeError_mrad: number;
  readonly concentration: readonly number[];
  /** Of the same length. */
  readonly efficiency: readonly number[];
  readonly best: { readonly concentration: number; readonly efficiency: number };
}

/** Thermal efficiency against concentration, a panel a temperature, a line a slope error; the best of each marked. */
export function efficiencyByConcentration(curves: readonly ConcentrationCurve[], frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "How much concentration pays at which temperature?");
  const { width, narrow, text } = settled;
  const errors = inOrder(curves.map((curve) => curve.slopeError_mrad));
  const temperatures = inOrder(curves.map((curve) => curve.meanFluid_C));
  const key = keyRow(
    errors.map((error, index) => ({
      name: `slope error ${text.number(error)} mrad`,
      sample: { line: { ...strokeOf("ink", 1.8), "stroke-dasharray": dashOf(index) } },
    })),
    0,
    width,
  );
  const ratios = curves.flatMap((curve) => curve.concentration).filter((c) => c > 0 && onPaper(c));
  const [low, high] = [Math.min(...ratios), Math.max(...ratios)];
  const domain = high > low ? [low, high] : [1, 100];
  const shares = curves.flatMap(({ efficiency }) => efficiency.map((value) => 100 * value));
  const kept = shares.filter((value) => value >= 0);
  const left = axisRoom(zeroBasedScale(kept, { top: 0, bottom: 1 }), text);
  const columns = narrow ? 1 : Math.max(1, Math.min(3, temperatures.length));
  const gap = 22;
  const panelWidth = (width - 12 - left - gap * (columns - 1)) / columns;
  const body = [key.svg, label(0, key.height + 14, "efficiency, %", { tone: "soft", size: 12 })];
  let bottom = key.height + 30;
  temperatures.forEach((temperature, index) => {
    const column = index % columns;
    const from = left + column * (panelWidth + gap);
    const top = key.height + 66 + Math.floor(index / columns) * 244;
    const plot = { left: from, right: from + panelWidth, top, bottom: top + 160 };
    bottom = plot.bottom;
    const x = scaleLog(domain, [plot.left, plot.right]);
    const y = zeroBasedScale(kept, plot);
    const own = errors.map((error) =>
      curves.find((curve) => curve.meanFluid_C === temperature && curve.slopeError_mrad === error),
    );
    const inPlot = ([px, py]: readonly [number, number]): readonly [number, number] =>
      py > plot.bottom + 0.5 ? [px, Number.NaN] : [px, py];
    body.push(
      valueAxis(y, plot, column === 0 ? text : { number: () => "", money: () => "" }, ""),
      label((plot.left + plot.right) / 2, top - 28, `mean fluid ${text.number(temperature)} °C`, {
        anchor: "middle",
      }),
      label((plot.left + plot.right) / 2, top - 12, bestWords(own, text), {
        anchor: "middle",
        tone: "soft",
        size: 12,
      }),
      ...decades(domain).map((ratio) => {
        if (!onPaper(x(ratio))) return "";
        const tick = tag("path", {
          d: `M${rounded(x(ratio))} ${plot.bottom + 1}v5`,
          ...strokeOf("inkSoft", 1),
        });
        const style = { anchor: "middle", tone: "soft", size: 12 } as const;
        return tick + label(x(ratio), plot.bottom + 20, text.number(ratio, 6), style);
      }),
      bestLines(
        own.map((curve) =>
          curve === undefined
            ? { points: [], best: [Number.NaN, Number.NaN] }
            : {
                points: curve.concentration.map((ratio, at) =>
                  inPlot([x(ratio), y(100 * (curve.efficiency[at] ?? Number.NaN))]),
                ),
                best: inPlot([x(curve.best.concentration), y(100 * curve.best.efficiency)]),
              },
        ),
      ),
    );
  });
  body.push(
    label(width - 12, bottom + 40, "aperture per receiver area, logarithmic", {
      anchor: "end",
      tone: "soft",
      size: 12,
    }),
  );
  return finishChart(settled, {
    height: bottom + 50,
    reading: readingOf(curves, errors, temperatures, text),
    table: tableOf(curves, errors, temperatures, text),
    body,
  });
}

/** A row a temperature and concentration, a column a slope error; below each temperature the best. */
function tableOf(
  curves: readonly ConcentrationCurve[],
  errors: readonly number[],
  temperatures: readonly number[],
  text: ChartText,
): ChartTable {
  return {
    columns: [
      "Mean fluid, °C",
      "Concentration",
      ...errors.map((error) => `Efficiency, slope error ${text.number(error)} mrad`),
    ],
    rows: temperatures.flatMap((temperature) => {
      const own = errors.map((error) =>
        curves.find((curve) => curve.meanFluid_C === temperature && curve.slopeError_mrad === error),
      );
      const ratios = inOrder(own.flatMap((curve) => curve?.concentration ?? []));
      return [
        ...ratios.map((ratio) => [
          temperature,
          ratio,
          ...own.map((curve) => curve?.efficiency[curve.concentration.indexOf(ratio)] ?? "–"),
        ]),
        [temperature, "best concentration", ...own.map((curve) => curve?.best.concentration ?? "–")],
      ];
    }),
  };
}

/** The best ratios in the order of the key. */
function bestWords(curves: readonly (ConcentrationCurve | undefined)[], text: ChartText): string {
  const ratios = curves.flatMap((curve) =>
    curve === undefined ? [] : [text.number(curve.best.concentration)],
  );
  return `best at ${ratios.join(", ")}`;
}

const inOrder = (values: readonly number[]) =>
  [...new Set(values.filter(Number.isFinite))].sort((a, b) => a - b);

/** 1, 10, 100 … within the axis; 2 and 5 too where it spans little. */
function decades([low, high]: readonly number[]): number[] {
  const steps = high! / low! > 200 ? [1] : [1, 2, 5];
  const list: number[] = [];
  for (let power = Math.floor(Math.log10(low!)); power <= Math.log10(high!); power += 1)
    for (const step of steps) {
      const value = step * 10 ** power;
      if (value >= 0.999 * low! && value <= 1.001 * high!) list.push(value);
    }
  return list;
}

/** What the smoothest mirror wants at each temperature, and what the roughest still allows at the hottest. */
function readingOf(
  curves: readonly ConcentrationCurve[],
  errors: readonly number[],
  temperatures: readonly number[],
  text: ChartText,
): string {
  const at = (temperature: number | undefined, error: number | undefined) =>
    curves.find((curve) => curve.meanFluid_C === temperature && curve.slopeError_mrad === error);
  const told = temperatures.flatMap((temperature) => {
    const curve = at(temperature, errors[0]);
    return curve === undefined
      ? []
      : [
          `${text.number(curve.best.concentration)} at ${text.number(temperature)} °C (${percent(text, curve.best.efficiency)})`,
        ];
  });
  if (told.length === 0) return "There is no curve.";
  const rough = errors.length > 1 ? at(temperatures.at(-1), errors.at(-1)) : undefined;
  const then =
    rough === undefined
      ? ""
      : `; with ${text.number(rough.slopeError_mrad)} mrad it is best at ${text.number(rough.best.concentration)} and reaches ${percent(text, rough.best.efficiency)} at ${text.number(rough.meanFluid_C)} °C`;
  return `With a slope error of ${text.number(errors[0]!)} mrad the best concentration is ${told.join(", ")}${then}.`;
}
