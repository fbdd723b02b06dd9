import type { SurenessFigures } from "./evaluator.ts";
import { neutral, toldBy, type UncertainInput, wordsOf } from "./uncertain-inputs.ts";
import type { Variation } from "./varied-study.ts";

/** The value of an input at which the plant is worth just what it costs. */
export interface BreakEven {
  readonly input: UncertainInput;
  readonly words: string;
  readonly by: "factor" | "addition";
  /** Factor or addition at which the net present value is 0; null where there is none within the search. */
  readonly at: number | null;
  readonly searched: readonly [number, number];
  /** Whether the plant pays at the end of the search that lies on the good side. */
  readonly remark: "" | "pays-everywhere" | "pays-nowhere";
}

/** What is searched, and how far: factors or additions. */
const searched: readonly (readonly [UncertainInput, number, number])[] = [
  ["collector-price", 0, 20],
  ["fuel-price", 0, 10],
  ["film-price", 0, 100],
  ["film-life", 0.05, 10],
  ["sunshine", 0.05, 2],
  ["discount-rate", 0, 1],
];

/**
 * Break-even values: each input alone, all others as in the study, by bisection on the sign of the net present
 * value, to a thousandth of the value. It takes the crossing nearest to the study's own value on the side on
 * which the sign differs; where neither end differs there is none, and the remark says whether it pays throughout.
 */
export function breakEvens(
  inputs: readonly UncertainInput[],
  at: (variation: Variation) => Pick<SurenessFigures, "npv">,
): BreakEven[] {
  const own = at({}).npv;
  return searched.flatMap(([input, low, high]): BreakEven[] => {
    if (!inputs.includes(input)) return [];
    const by = toldBy(input);
    const worth = (value: number) => at({ [input]: value }).npv;
    const middle = neutral(by);
    const told = { input, words: wordsOf(input), by, searched: [low, high] as const };
    const ends = [low, high].filter((end) => end !== middle && worth(end) >= 0 !== own >= 0);
    const end = ends.sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))[0];
    if (end === undefined)
      return [{ ...told, at: null, remark: own >= 0 ? "pays-everywhere" : "pays-nowhere" }];
    return [{ ...told, at: crossing(worth, middle, end, own >= 0), remark: "" }];
  });
}

function crossing(worth: (value: number) => number, from: number, to: number, paysFrom: boolean): number {
  let [near, far] = [from, to];
  for (
    let n = 0;
    n < 40 && Math.abs(far - near) > 5e-4 * Math.max(Math.abs(near), Math.abs(far), 1e-3);
    n += 1
  ) {
    const middle = (near + far) / 2;
    if (worth(middle) >= 0 === paysFrom) near = middle;
    else far = middle;
  }
  return (near + far) / 2;
}
