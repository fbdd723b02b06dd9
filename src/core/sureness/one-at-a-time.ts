import type { SurenessFigures } from "./evaluator.ts";
import { type InputRange, neutral, type UncertainInput } from "./uncertain-inputs.ts";
import type { Variation } from "./varied-study.ts";

/** What figures become where one input is at an end of its range and all others are as in the study. */
export interface Bar extends InputRange {
  readonly atLow: SurenessFigures;
  readonly atHigh: SurenessFigures;
}

/** Two figures an input, one after the other, widest net present value first. @throws StoppedError of `at` */
export function oneAtATime(
  ranges: readonly InputRange[],
  at: (variation: Variation) => SurenessFigures,
  onDone: (done: number, of: number) => void = () => {},
): Bar[] {
  const bars = ranges.map((range, i): Bar => {
    const bar = {
      ...range,
      atLow: at({ [range.input]: range.low }),
      atHigh: at({ [range.input]: range.high }),
    };
    onDone(i + 1, ranges.length);
    return bar;
  });
  const width = ({ atLow, atHigh }: Bar) => Math.abs(atHigh.npv - atLow.npv);
  return bars.sort((a, b) => width(b) - width(a));
}

/** Figures over two inputs at once. */
export interface TwoWay {
  readonly rows: Axis;
  readonly columns: Axis;
  /** By row, then column. */
  readonly npv: readonly (readonly number[])[];
  readonly fuelCostAvoided: readonly (readonly number[])[];
  readonly solarHeat_per_kWh: readonly (readonly (number | null)[])[];
}

export interface Axis {
  readonly input: UncertainInput;
  readonly words: string;
  readonly by: InputRange["by"];
  readonly values: readonly number[];
}

/** Pairs of inputs that have a table where the study has both. */
export const tablePairs: readonly (readonly [UncertainInput, UncertainInput])[] = [
  ["fuel-price", "collector-price"],
  ["film-life", "film-price"],
];

/** A table for each pair of which both inputs have a range, at five values each: ends, middle, and between. */
export function twoWay(
  ranges: readonly InputRange[],
  at: (variation: Variation) => SurenessFigures,
): TwoWay[] {
  return tablePairs.flatMap(([first, second]) => {
    const row = ranges.find(({ input }) => input === first);
    const column = ranges.find(({ input }) => input === second);
    if (row === undefined || column === undefined) return [];
    const rows = axis(row);
    const columns = axis(column);
    const cells = rows.values.map((r) => columns.values.map((c) => at({ [first]: r, [second]: c })));
    return [
      {
        rows,
        columns,
        npv: cells.map((line) => line.map(({ npv }) => npv)),
        fuelCostAvoided: cells.map((line) => line.map(({ fuelCostAvoided }) => fuelCostAvoided)),
        solarHeat_per_kWh: cells.map((line) => line.map(({ solarHeat_per_kWh }) => solarHeat_per_kWh)),
      },
    ];
  });
}

function axis({ input, words, by, low, high }: InputRange): Axis {
  const middle = neutral(by);
  return { input, words, by, values: [low, (low + middle) / 2, middle, (middle + high) / 2, high] };
}
