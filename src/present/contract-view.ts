import type { MoneyFigures } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { bareMoney, energy, heatPrice, money, percent, type Writing } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

export interface ContractView {
  readonly sentences: readonly string[];
  readonly prices: TableView;
  readonly years: TableView;
}

/** Selling the heat instead of the plant; null where the study has no contract. */
export function contractView(
  study: Study,
  { contract }: Pick<MoneyFigures, "contract">,
): ContractView | null {
  const terms = study.money.contract;
  if (contract === undefined || contract === null || terms === undefined) return null;
  const w = writingOf(study);
  const { price_per_kWh, lowest_per_kWh, highest_per_kWh, years } = contract;
  const first = years[1];
  const sentences =
    price_per_kWh === null || first === undefined
      ? []
      : [
          `The seller buys and keeps the plant and sells its solar heat at ${heatPrice(price_per_kWh, w)} in the first year; the price ${indexWords(study, w)}. ` +
            `The client pays ${money(first.payment, w)} for ${energy(first.heat_kWh, w)} in that year and saves ${money(first.client, w)}, ` +
            `${money(contract.clientSavesOverPeriod, w)} over ${study.money.years} years, not discounted.`,
          `At ${heatPrice(lowest_per_kWh, w)} the seller’s own money earns the wanted ${percent(terms.wantedReturn_per_year, w)}, real` +
            `${study.money.tax === undefined ? "" : ", after tax"}; at ${heatPrice(highest_per_kWh, w)} the client saves nothing over the period. ` +
            `The price lies ${percent(terms.sellerShare, w)} of the way from the first to the second.`,
          "The seller pays for upkeep, replacements and the collectors’ electricity; the client keeps boilers and fuel. Heat that the sun does not give is not sold, and nobody is bound to take heat that has no use. Measuring, guarantees, and what happens where either side fails belong into the contract, which lawyers write.",
        ];
  return {
    sentences: [...contract.remarks, ...sentences],
    prices: figuresTable(
      "The price of heat",
      ["", "Figure"],
      [
        ["Lowest: the seller earns the wanted return", heatPrice(lowest_per_kWh, w)],
        ["Of the contract", heatPrice(price_per_kWh, w)],
        ["Highest: the client saves nothing", heatPrice(highest_per_kWh, w)],
        ["Seller’s return on its own money, real", percent(contract.sellerReturn, w)],
        [
          `Seller’s net present value at ${percent(terms.wantedReturn_per_year, w)}`,
          money(contract.sellerNpv, w),
        ],
        [
          `Client’s net present value at ${percent(study.money.realDiscountRate, w)}`,
          money(contract.clientNpv, w),
        ],
        ["Client saves over the period", money(contract.clientSavesOverPeriod, w)],
      ],
    ),
    years: figuresTable(
      `Both sides year by year, ${w.currency} without inflation`,
      ["Year", "Heat sold, MWh", `Price, ${w.currency}/MWh`, "Client pays", "Client saves", "To the seller"],
      years.map((row) => [
        String(row.year),
        ...(row.year === 0
          ? ["", "", ""]
          : [
              bareMoney(row.heat_kWh / 1000, w.locale),
              bareMoney(row.price_per_kWh * 1000, w.locale),
              bareMoney(row.payment, w.locale),
            ]),
        bareMoney(row.client, w.locale),
        bareMoney(row.seller, w.locale),
      ]),
    ),
  };
}

function indexWords({ money: { contract }, backups }: Study, w: Writing): string {
  if (contract?.index === "yearly-rate") {
    const rate = contract.index_per_year ?? 0;
    return rate === 0
      ? "stays as it is, in money of the day"
      : `rises by ${percent(rate, w)} a year, in money of the day`;
  }
  if (contract?.index === "fuel-price")
    return `follows the fuel of ${backups.find(({ id }) => id === contract.indexFuel)?.name ?? "the backup"}`;
  return "follows inflation";
}
