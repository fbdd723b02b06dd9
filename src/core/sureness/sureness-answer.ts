import type { BreakEven } from "./break-even.ts";
import type { DrawnFigures } from "./draws.ts";
import type { SurenessFigures } from "./evaluator.ts";
import type { Bar, TwoWay } from "./one-at-a-time.ts";
import { quantile } from "./quantile.ts";

/** How sure the figures of an answer are: sureness.json. */
export interface SurenessAnswer {
  readonly formatVersion: 1;
  readonly program: { readonly name: "noonkeep"; readonly version: string };
  readonly currency: string;
  /** At the study's own values, films in their mean state. */
  readonly base: SurenessFigures;
  /** Widest first. */
  readonly bars: readonly Bar[];
  /** The same with the sizes found anew at each end, by typical days; null where not asked for. */
  readonly resized: readonly Bar[] | null;
  readonly tables: readonly TwoWay[];
  readonly breakEvens: readonly BreakEven[];
  /** Null where draws were not asked for. */
  readonly draws: DrawSummary | null;
}

export interface DrawSummary {
  readonly count: number;
  readonly seed: number;
  /** Weather years that were drawn from. */
  readonly weatherYears: number;
  readonly fuelCostAvoided: Spread;
  readonly npv: Spread;
  /** Of the draws that use solar heat; null where none does. */
  readonly solarHeat_per_kWh: Spread | null;
  /** Share of draws whose net present value is below 0. */
  readonly lossShare: number;
}

export interface Spread {
  /** Below which a tenth of all draws lies. */
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  readonly mean: number;
  /** Of the median, from the order statistics about it that hold it with 68 %. */
  readonly p50Error: number;
  /** Every hundredth from the least to the most, 101 values. */
  readonly hundredths: readonly number[];
}

/** Puts drawn figures together. */
export function summariseDraws(
  figures: DrawnFigures,
  told: Pick<DrawSummary, "seed" | "weatherYears">,
): DrawSummary {
  const { npv, fuelCostAvoided } = figures;
  const heat = figures.solarHeat_per_kWh.filter((value) => !Number.isNaN(value));
  return {
    ...told,
    count: npv.length,
    fuelCostAvoided: spreadOf(fuelCostAvoided),
    npv: spreadOf(npv),
    solarHeat_per_kWh: heat.length === 0 ? null : spreadOf(heat),
    lossShare: npv.filter((value) => value < 0).length / npv.length,
  };
}

function spreadOf(values: Float64Array): Spread {
  const ascending = values.slice().sort();
  const n = ascending.length;
  // A binomial count of draws below the median has a standard deviation of √n/2.
  const half = Math.sqrt(n) / 2 / n;
  const error =
    (quantile(ascending, Math.min(1, 0.5 + half)) - quantile(ascending, Math.max(0, 0.5 - half))) / 2;
  return {
    p10: quantile(ascending, 0.1),
    p50: quantile(ascending, 0.5),
    p90: quantile(ascending, 0.9),
    mean: values.reduce((sum, value) => sum + value, 0) / n,
    p50Error: error,
    hundredths: Array.from({ length: 101 }, (_, i) => quantile(ascending, i / 100)),
  };
}

/** Several parts of one drawing in their order. */
export function joinDraws(parts: readonly DrawnFigures[]): DrawnFigures {
  const joined = (of: (part: DrawnFigures) => Float64Array) =>
    Float64Array.from(parts.flatMap((part) => [...of(part)]));
  return {
    fuelCostAvoided: joined((part) => part.fuelCostAvoided),
    npv: joined((part) => part.npv),
    solarHeat_per_kWh: joined((part) => part.solarHeat_per_kWh),
  };
}
