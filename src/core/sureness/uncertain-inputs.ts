import type { Study } from "../study/schema/study.ts";
import type { Sureness, uncertainInputs } from "../study/schema/sureness.ts";

export type UncertainInput = (typeof uncertainInputs)[number];
export type Distribution = Sureness["ranges"][number]["distribution"];

/** An input with the range in which it may lie. */
export interface InputRange {
  readonly input: UncertainInput;
  readonly words: string;
  /** Whether low and high are factors on the study's value or are added to it. */
  readonly by: "factor" | "addition";
  readonly low: number;
  readonly high: number;
  readonly distribution: Distribution;
  /** Where the range comes from. */
  readonly source: string;
}

interface Usual {
  readonly words: string;
  readonly by: "factor" | "addition";
  readonly low: number;
  readonly high: number;
  readonly source: string;
  readonly isIn: (study: Study) => boolean;
}

const assumed = "assumption of this program, to be replaced";
const always = () => true;
const has = (count: (study: Study) => number) => (study: Study) => count(study) > 0;
const films = ({ collectors }: Study) => collectors.filter(({ filmPart }) => filmPart !== undefined).length;

/** Usual ranges; none is published, all are to be replaced by what is known of the case. */
const usual: Readonly<Record<UncertainInput, Usual>> = {
  "fuel-price": {
    words: "Price of fuel",
    by: "factor",
    low: 0.8,
    high: 1.2,
    source: assumed,
    isIn: has(({ backups }) => backups.length),
  },
  "fuel-price-rise": {
    words: "Yearly rise of the fuel price",
    by: "addition",
    low: -0.01,
    high: 0.01,
    source: assumed,
    isIn: has(({ backups }) => backups.length),
  },
  "electricity-price": {
    words: "Price of electricity",
    by: "factor",
    low: 0.8,
    high: 1.2,
    source: assumed,
    isIn: always,
  },
  "carbon-price": {
    words: "Carbon price",
    by: "factor",
    low: 0.5,
    high: 1.5,
    source: assumed,
    isIn: ({ money }) => money.carbonPrice_per_t > 0,
  },
  "collector-price": {
    words: "Price of collectors without film",
    by: "factor",
    low: 0.8,
    high: 1.2,
    source: assumed,
    isIn: has(({ collectors }) => collectors.length),
  },
  "film-price": {
    words: "Price of a film change",
    by: "factor",
    low: 0.8,
    high: 1.2,
    source: "2 to 3 $/m² about 2.5: common practice, no source",
    isIn: has(films),
  },
  "film-life": {
    words: "Life of the film",
    by: "factor",
    low: 0.75,
    high: 1.25,
    source: assumed,
    isIn: has(films),
  },
  "store-price": {
    words: "Price of stores",
    by: "factor",
    low: 0.8,
    high: 1.2,
    source: assumed,
    isIn: has(({ stores }) => stores.length),
  },
  "other-price": {
    words: "Price of chillers, exchangers and boilers",
    by: "factor",
    low: 0.8,
    high: 1.2,
    source: assumed,
    isIn: has(
      ({ chillers, stepDowns, backups }) =>
        [...chillers, ...stepDowns, ...backups].filter(({ parts }) => parts.length > 0).length,
    ),
  },
  upkeep: { words: "Upkeep", by: "factor", low: 0.5, high: 1.5, source: assumed, isIn: always },
  "discount-rate": {
    words: "Discount rate",
    by: "addition",
    low: -0.02,
    high: 0.02,
    source: assumed,
    isIn: always,
  },
  sunshine: { words: "Sunshine", by: "factor", low: 0.95, high: 1.05, source: assumed, isIn: always },
  optics: {
    words: "Light that the collectors take up",
    by: "factor",
    low: 0.95,
    high: 1.05,
    source: assumed,
    isIn: has(({ collectors }) => collectors.length),
  },
  "heat-loss": {
    words: "Heat loss of the collectors",
    by: "factor",
    low: 0.8,
    high: 1.2,
    source: assumed,
    isIn: has(
      ({ collectors }) => collectors.filter(({ heatLoss }) => heatLoss.by !== "evacuated-tube").length,
    ),
  },
  demand: {
    words: "Heat, cold and water wanted",
    by: "factor",
    low: 0.9,
    high: 1.1,
    source: assumed,
    isIn: always,
  },
};

/** Every input of a study that may turn out otherwise, with the study's own range where it gives one. */
export function inputRanges(study: Study): InputRange[] {
  return (Object.keys(usual) as UncertainInput[]).flatMap((input) => {
    const { isIn, ...range } = usual[input];
    if (!isIn(study)) return [];
    const own = study.sureness?.ranges.find((one) => one.input === input);
    return [
      own === undefined
        ? { input, ...range, distribution: "triangular" as const }
        : {
            input,
            ...range,
            low: own.low,
            high: own.high,
            distribution: own.distribution,
            source: "given in the study",
          },
    ];
  });
}

/** The value of an input that leaves the study as it is. */
export function neutral(by: InputRange["by"]): number {
  return by === "factor" ? 1 : 0;
}

/** Whether an input's range is told by factors or additions. */
export function toldBy(input: UncertainInput): InputRange["by"] {
  return usual[input].by;
}

export function wordsOf(input: UncertainInput): string {
  return usual[input].words;
}
