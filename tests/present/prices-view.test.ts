import { describe, expect, it } from "vitest";
import { priceSentence } from "../../src/core/study/report/price-sentences.ts";
import type { PriceEntry, Prices, Result } from "../../src/core/study/result.ts";
import { pricesInShort, pricesView } from "../../src/present/prices-view.ts";
import { smallStudy } from "../support/small-study.ts";

function entry(of: Partial<PriceEntry>): PriceEntry {
  const bare = {
    kind: "aperture",
    what: "Film trough on Hot water",
    item: "trough",
    network: "hot-water",
    size: 1234.5,
    existing: 0,
    unit: "m²",
    state: "built",
    annualCost_per_unit: 10.5,
    value_per_unit: 0,
    rationed: false,
    entry: null,
    ...of,
  } as const;
  return { ...bare, sentence: priceSentence(bare, "XTS") };
}

const land = { kind: "land", what: "Land", item: "land", network: null, annualCost_per_unit: null } as const;
const unbuilt = {
  state: "unbuilt",
  size: 0,
  value_per_unit: -4.2,
  entry: { factor: 0.6, annualCost_per_unit: 6.3, initialPrice_per_unit: 50.4 },
} as const;

const withPrices = (prices: Prices | null | undefined) => ({ prices }) as unknown as Result;
const of = (...entries: PriceEntry[]) => withPrices({ program: "typical-days", heat: null, entries });
const plain = (text: string) => text.replaceAll("\u202f", " ");

describe("the sentence of a price", () => {
  it.each<[Partial<PriceEntry>, string]>([
    [{}, "Just worth its price: one more m² would save as much as it costs."],
    [
      { rationed: true },
      "Just worth its price: one more m² would save as much as it costs, the scarce land and capital that it takes counted.",
    ],
    [
      unbuilt,
      "Not built: it would start to pay at 50.4 XTS per m², with all its prices at 60 % of those given.",
    ],
    [
      { ...unbuilt, existing: 800 },
      "No more than there is: it would start to pay at 50.4 XTS per m², with all its prices at 60 % of those given.",
    ],
    [
      { ...unbuilt, entry: { factor: -0.1, annualCost_per_unit: -1, initialPrice_per_unit: -8 } },
      "Not built: it would not pay even as a gift.",
    ],
    [{ ...unbuilt, entry: null }, "Not built: it has no use."],
    [
      { state: "at its limit", value_per_unit: 3.456 },
      "At its limit: one more m² would save 3.46 XTS a year beyond its own cost.",
    ],
    [
      { state: "at its limit", value_per_unit: -3.456 },
      "Held up by its least size: one m² less would save 3.46 XTS a year.",
    ],
    [
      { state: "fixed", value_per_unit: 2 },
      "Fixed smaller than pays: one more m² would save 2 XTS a year beyond its own cost.",
    ],
    [{ state: "fixed", value_per_unit: -2 }, "Fixed larger than pays: one m² less would save 2 XTS a year."],
    [
      { state: "fixed", size: 0, value_per_unit: -2 },
      "Fixed at nothing new; one m² would cost 2 XTS a year more than it saves.",
    ],
    [{ state: "fixed", value_per_unit: null }, "The program gives it no price."],
    [{ ...land, state: "at its limit", value_per_unit: 1.5 }, "One more m² would save 1.5 XTS a year."],
    [{ ...land, state: "within its limit" }, "It costs nothing: the plant would be the same without it."],
    [
      {
        ...land,
        kind: "solar-fraction",
        unit: "percentage point",
        state: "at its limit",
        value_per_unit: 900,
      },
      "Asking for one percentage point less would save 900 XTS a year.",
    ],
  ])("of %o is in plain words", (what, sentence) => {
    expect(entry(what).sentence).toBe(sentence);
  });
});

describe("the view of the prices", () => {
  it("is missing where an answer has none, also one kept by an earlier version", () => {
    for (const none of [null, undefined]) {
      expect(pricesView(smallStudy(), withPrices(none))).toBeNull();
      expect(pricesInShort(smallStudy(), withPrices(none))).toBe("");
    }
  });

  it("has a row for each size and limit, with units", () => {
    const fraction = {
      ...land,
      kind: "solar-fraction",
      what: "The least solar fraction",
      unit: "percentage point",
      size: 0.6123,
    } as const;
    const view = pricesView(smallStudy(), of(entry({}), entry(unbuilt), entry(fraction)))!;
    expect(view.entries.rows.map((row) => row.map(plain))).toEqual([
      ["Film trough on Hot water", entry({}).sentence, "1,230 m²", "10.50 XTS per m²"],
      ["Film trough on Hot water", entry(unbuilt).sentence, "none", "10.50 XTS per m²"],
      ["The least solar fraction", entry(fraction).sentence, "61.2 %", "–"],
    ]);
    expect(view.heat).toBeNull();
    expect(view.heatNote).not.toBe("");
  });

  it("gives the marginal cost of heat by network where the full year chose the sizes", () => {
    const heat = [
      {
        network: "hot-water",
        mean_per_kWh: 0.05678,
        least_per_kWh: 0,
        most_per_kWh: 0.0981,
        bySeasonAndHour_per_kWh: [],
      },
    ];
    const view = pricesView(smallStudy(), withPrices({ program: "full-year", heat, entries: [] }))!;
    expect(view.heat!.rows[0]!.map(plain)).toEqual([
      "Hot water",
      "56.8 XTS/MWh",
      "0 XTS/MWh",
      "98.1 XTS/MWh",
    ]);
    expect(view.heatNote).toBe("");
  });

  it("tells in short what is worth more than it costs and what nearly pays", () => {
    const prices = of(
      entry({}),
      entry({ ...land, state: "at its limit", value_per_unit: 1.5 }),
      entry({ ...unbuilt, what: "Glass trough" }),
    );
    expect(plain(pricesInShort(smallStudy(), prices))).toBe(
      "Each size chosen is the one at which one more unit would just pay for itself. " +
        "What would save more than it costs: one more m² of land (1.50 XTS a year). " +
        "Not built, but paying at a part of the price: Glass trough at 60.0 %.",
    );
  });
});
