import { irr, npv } from "financial";
import type { Figure } from "./figures.ts";

/** Newton's method starts here in turn: from the left it cannot overshoot on money first out, then in. */
const guesses = [0.1, -0.5, -0.9, -0.97, 0.5, 2, 10];

/**
 * The rate at which the flows (time 0, end of year 1, …) are worth nothing today.
 *
 * Given only where it is the only one: the flows change sign once (Descartes), or their running sum
 * does and ends on the other side (Norstrom 1972, J. Financial and Quantitative Analysis 7, p. 1835:
 * one rate above 0). Otherwise null with a sentence.
 */
export function internalRate(flows: readonly number[]): Figure {
  const changes = signChanges(flows);
  if (changes === 0)
    return { value: null, remark: "There is no internal rate of return: money flows one way only." };
  const onePositive = signChanges(runningSum(flows)) === 1 && opposite(flows);
  if (changes > 1 && !onePositive)
    return {
      value: null,
      remark:
        `The internal rate of return is left out: the yearly flows change sign ${changes} times, ` +
        "so that more than one rate may fit.",
    };

  const largest = flows.reduce((most, flow) => Math.max(most, Math.abs(flow)), 0);
  const scaled = flows.map((flow) => flow / largest);
  const least = changes === 1 ? -1 : 0;
  for (const guess of guesses) {
    const rate = irr(scaled, guess, 1e-13, 2000);
    if (rate > least && rate < 1e6 && isRoot(scaled, rate)) return { value: rate, remark: "" };
  }
  return { value: null, remark: "The internal rate of return could not be found." };
}

/** Newton's method also stops where its steps are small; only a change of sign proves a root. */
function isRoot(flows: number[], rate: number): boolean {
  const step = 1e-9 * (1 + rate);
  return npv(rate - step, flows) * npv(rate + step, flows) <= 0;
}

function signChanges(values: readonly number[]): number {
  const signs = values.map(Math.sign).filter((sign) => sign !== 0);
  return signs.filter((sign, index) => index > 0 && sign !== signs[index - 1]).length;
}

function runningSum(values: readonly number[]): number[] {
  let sum = 0;
  return values.map((value) => (sum += value));
}

/** Whether the first flow and the sum of all lie on different sides of 0. */
function opposite(flows: readonly number[]): boolean {
  const sum = flows.reduce((total, flow) => total + flow, 0);
  return (flows.find((flow) => flow !== 0) ?? 0) * sum < 0;
}
