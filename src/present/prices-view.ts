import type { PriceEntry, Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { joined } from "./joined.ts";
import { threeDigits } from "./numbers.ts";
import { heatPrice, money, percent, type Writing } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** The section "What the prices say": null where the answer gives no prices. */
export interface PricesView {
  /** Of which program the prices are, and for what they hold. */
  readonly note: string;
  readonly heat: TableView | null;
  /** Why the chart of heat is no long-run cost; empty where it is. */
  readonly heatNote: string;
  readonly entries: TableView;
}

export function pricesView(study: Study, result: Result): PricesView | null {
  // Answers kept by an earlier version have none.
  const prices = result.prices ?? null;
  if (prices === null) return null;
  const w = writingOf(study);
  const isYear = prices.program === "full-year";
  return {
    note: `What one unit more or less would do to the annual cost, with everything else free to follow, by the ${
      isYear ? "full year’s program" : "typical days’ program, which gave the sizes"
    }. It holds for small changes, one at a time.`,
    heatNote: isYear
      ? ""
      : "At the sizes found, what more heat would cost in fuel and from the stores. What it would cost in plant as well is told once the full year chose the sizes.",
    heat: prices.heat === null ? null : heatTable(study, prices.heat, w),
    entries: entriesTable(prices.entries, w),
  };
}

function heatTable(
  study: Study,
  heat: NonNullable<NonNullable<Result["prices"]>["heat"]>,
  w: Writing,
): TableView {
  return figuresTable(
    "What one more MWh of heat would cost, fuel and plant",
    ["Heat network", "Mean, by demand", "Least hour", "Dearest hour"],
    heat.map(({ network, mean_per_kWh, least_per_kWh, most_per_kWh }) => [
      study.networks.find(({ id }) => id === network)?.name ?? network,
      ...[mean_per_kWh, least_per_kWh, most_per_kWh].map((price) => heatPrice(price, w)),
    ]),
  );
}

/** Sizes and limits with what one more unit of each would do, in sentences. */
export function entriesTable(entries: readonly PriceEntry[], w: Writing): TableView {
  return figuresTable(
    "What one more of each would do",
    ["Of what", "What its price says", "New, or used", "Costs a year"],
    entries.map((entry) => [
      entry.what,
      entry.sentence,
      sizeOf(entry, w),
      entry.annualCost_per_unit === null ? "–" : `${money(entry.annualCost_per_unit, w)} per ${entry.unit}`,
    ]),
    ["What its price says"],
  );
}

function sizeOf({ kind, size, unit }: PriceEntry, w: Writing): string {
  if (kind === "solar-fraction") return percent(size, w);
  return size > 1e-6 ? `${threeDigits(size, w.locale)} ${unit}` : "none";
}

/** The prices that matter to an engineer in a few sentences; empty where there are none. */
export function pricesInShort(study: Study, result: Result): string {
  const prices = result.prices ?? null;
  if (prices === null) return "";
  const w = writingOf(study);
  const saving = ({ value_per_unit: v }: PriceEntry) => v ?? 0;
  const anyBuilt = prices.entries.some(({ state }) => state === "built");
  const held = prices.entries
    .filter((entry) => entry.state !== "unbuilt" && saving(entry) > 0)
    .sort((a, b) => saving(b) * b.size - saving(a) * a.size)
    .slice(0, 3);
  const unbuilt = prices.entries
    .flatMap((entry) =>
      entry.entry !== null && entry.entry.factor > 0 ? [{ ...entry, entry: entry.entry }] : [],
    )
    .sort((a, b) => b.entry.factor - a.entry.factor)
    .slice(0, 3);
  const sentences: string[] = [];
  if (anyBuilt) {
    sentences.push("Each size chosen is the one at which one more unit would just pay for itself.");
  }
  if (held.length > 0) {
    const list = held.map((entry) => {
      const what =
        entry.kind === "solar-fraction"
          ? `one ${entry.unit} less of the least solar fraction`
          : `one more ${entry.unit} of ${lowerFirst(entry)}`;
      return `${what} (${money(saving(entry), w)} a year)`;
    });
    sentences.push(`What would save more than it costs: ${joined(list)}.`);
  }
  if (unbuilt.length > 0) {
    const list = unbuilt.map(({ what, entry }) => `${what} at ${percent(entry.factor, w)}`);
    sentences.push(`Not built, but paying at a part of the price: ${joined(list)}.`);
  }
  return sentences.join(" ");
}

/** "The budget", "Land" within a sentence; names stay as they are. */
function lowerFirst({ kind, what }: PriceEntry): string {
  return kind === "land" || kind === "budget" ? what.charAt(0).toLowerCase() + what.slice(1) : what;
}
