import type { Study } from "../core/study/schema/study.ts";
import type { BreakEven } from "../core/sureness/break-even.ts";
import type { SurenessAnswer } from "../core/sureness/sureness-answer.ts";
import { withDecimals } from "./numbers.ts";
import { money, percent, type Writing } from "./quantities.ts";
import { writingOf } from "./writing-of.ts";

/** How sure an answer is, in sentences: what moves it most, where it stops paying, how draws spread. */
export function surenessLines(study: Study, answer: SurenessAnswer): string[] {
  const w = writingOf(study);
  const widest = answer.bars
    .slice(0, 3)
    .map(
      ({ words, atLow, atHigh }) =>
        `${words.charAt(0).toLowerCase()}${words.slice(1)} (${money(Math.min(atLow.npv, atHigh.npv), w)} to ${money(Math.max(atLow.npv, atHigh.npv), w)})`,
    );
  const { draws } = answer;
  return [
    `Net present value of the same plant: ${money(answer.base.npv, w)}, with films in their mean state. It moves most with ${widest.join(", ")}.`,
    ...answer.breakEvens.map((one) => breakEvenSentence(one, w)),
    ...(draws === null
      ? []
      : [
          `Of ${draws.count} draws (seed ${draws.seed}, ${draws.weatherYears} weather ${draws.weatherYears === 1 ? "year" : "years"}) a tenth avoids less than ${money(draws.fuelCostAvoided.p10, w)} a year, half more than ${money(draws.fuelCostAvoided.p50, w)} and a tenth more than ${money(draws.fuelCostAvoided.p90, w)}; in ${percent(draws.lossShare, w)} the plant costs more than it saves.`,
        ]),
    "Ranges are assumptions unless the study gives its own, and inputs are drawn as if they did not depend on each other.",
  ];
}

/** Where an input alone makes the plant worth nothing. */
export function breakEvenSentence(one: BreakEven, w: Writing): string {
  const { words, by, at, searched, remark } = one;
  const told = (value: number) =>
    by === "factor"
      ? `${withDecimals(value, 2, w.locale)} times the study’s value`
      : `${percent(value, w)} more than the study’s`;
  if (at !== null) return `${words}: worth nothing at ${told(at)}.`;
  const span = `between ${told(searched[0])} and ${told(searched[1])}`;
  return remark === "pays-everywhere"
    ? `${words}: the plant pays everywhere ${span}.`
    : `${words}: the plant does not pay anywhere ${span}.`;
}
