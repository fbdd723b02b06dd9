import { type RandomStream, randomStream } from "../sun/random.ts";
import type { SurenessFigures } from "./evaluator.ts";
import { type InputRange, neutral } from "./uncertain-inputs.ts";
import type { Variation } from "./varied-study.ts";

/** Distance of the 90 % quantile of a standard normal from its mean. */
const tenthAbove = 1.2815515655446004;

export interface Drawing {
  readonly ranges: readonly InputRange[];
  /** Probability of each weather year, together 1. */
  readonly yearShares: readonly number[];
  readonly seed: number;
}

/** What one draw takes for every input, and which weather year. */
export interface Draw {
  readonly year: number;
  readonly variation: Variation;
}

/**
 * The draw of a number, the same whatever else is drawn: every draw has a stream of its own, and every input takes
 * one uniform number from it, drawn or not. Inputs are independent of each other.
 */
export function drawOf({ ranges, yearShares, seed }: Drawing, index: number): Draw {
  const stream = randomStream(Math.imul(seed, 0x85ebca6b) ^ Math.imul(index + 1, 0xc2b2ae35));
  const year = yearOf(yearShares, stream.uniform());
  const variation: Record<string, number> = {};
  for (const range of ranges) {
    const value = drawnValue(range, stream);
    if (value !== null) variation[range.input] = value;
  }
  return { year, variation };
}

function yearOf(shares: readonly number[], uniform: number): number {
  let sum = 0;
  for (let year = 0; year < shares.length; year += 1) {
    sum += shares[year]!;
    if (uniform < sum) return year;
  }
  return shares.length - 1;
}

/** A value between low and high; null where the input is not drawn. */
export function drawnValue({ by, low, high, distribution }: InputRange, stream: RandomStream): number | null {
  const uniform = stream.uniform();
  const middle = neutral(by);
  switch (distribution) {
    case "none":
      return null;
    case "uniform":
      return low + uniform * (high - low);
    case "normal": {
      // Prices and factors cannot fall below nothing.
      const value = (low + high) / 2 + ((high - low) / 2 / tenthAbove) * normalOf(uniform);
      return by === "factor" ? Math.max(0.01, value) : value;
    }
    case "triangular":
      return triangular(low, Math.min(high, Math.max(low, middle)), high, uniform);
  }
}

/** Inverse of the triangular distribution. */
function triangular(low: number, mode: number, high: number, uniform: number): number {
  const width = high - low;
  if (!(width > 0)) return low;
  const below = (mode - low) / width;
  return uniform < below
    ? low + Math.sqrt(uniform * width * (mode - low))
    : high - Math.sqrt((1 - uniform) * width * (high - mode));
}

/** Inverse of the standard normal distribution: Acklam's rational approximation, relative error below 1.2e-9 (from memory). */
export function normalOf(share: number): number {
  const a = [
    -39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716,
    2.506628277459239,
  ];
  const b = [
    -54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572, 1,
  ];
  const c = [
    -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
    2.938163982698783,
  ];
  const d = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416, 1];
  const at = (coefficients: readonly number[], x: number) =>
    coefficients.reduce((sum, one) => sum * x + one, 0);
  if (share < 0.02425) {
    const q = Math.sqrt(-2 * Math.log(share));
    return at(c, q) / at(d, q);
  }
  if (share > 1 - 0.02425) return -normalOf(1 - share);
  const q = share - 0.5;
  return (at(a, q * q) * q) / at(b, q * q);
}

/** The figures of some draws, as many entries as draws; NaN for a cost of heat that there is not. */
export interface DrawnFigures {
  readonly fuelCostAvoided: Float64Array;
  readonly npv: Float64Array;
  readonly solarHeat_per_kWh: Float64Array;
}

/** Figures of the draws `from` to before `to`. @throws what `at` throws */
export function drawFigures(
  drawing: Drawing,
  at: (variation: Variation, year: number) => SurenessFigures,
  from: number,
  to: number,
  onDone: (done: number) => void = () => {},
): DrawnFigures {
  const count = Math.max(0, to - from);
  const figures: DrawnFigures = {
    fuelCostAvoided: new Float64Array(count),
    npv: new Float64Array(count),
    solarHeat_per_kWh: new Float64Array(count),
  };
  for (let n = 0; n < count; n += 1) {
    const { variation, year } = drawOf(drawing, from + n);
    const { fuelCostAvoided, npv, solarHeat_per_kWh } = at(variation, year);
    figures.fuelCostAvoided[n] = fuelCostAvoided;
    figures.npv[n] = npv;
    figures.solarHeat_per_kWh[n] = solarHeat_per_kWh ?? Number.NaN;
    onDone(n + 1);
  }
  return figures;
}
