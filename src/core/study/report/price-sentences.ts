import { inWords } from "../in-words.ts";
import type { UnsaidEntry } from "./prices.ts";

/** What an entry says, in a sentence: what one more unit would do, or at which price it would enter. */
export function priceSentence(entry: UnsaidEntry, currency: string): string {
  const { unit, value_per_unit: value } = entry;
  const money = (amount: number) => `${inWords(amount)} ${currency}`;
  if (entry.annualCost_per_unit === null) return limitSentence(entry, money);
  if (value === null) return "The program gives it no price.";
  const more = `one more ${unit} would save ${money(value)} a year beyond its own cost`;
  const less = `one ${unit} less would save ${money(-value)} a year`;
  switch (entry.state) {
    case "built": {
      const rationed = entry.rationed ? ", the scarce land and capital that it takes counted" : "";
      return `Just worth its price: one more ${unit} would save as much as it costs${rationed}.`;
    }
    case "unbuilt":
      return unbuiltSentence(entry, money);
    case "at its limit":
      if (value === 0) return `At its limit, where one more ${unit} would change nothing.`;
      return value > 0 ? `At its limit: ${more}.` : `Held up by its least size: ${less}.`;
    case "fixed":
      if (value === 0) return "Fixed at a size that is just worth its price.";
      if (value > 0) return `Fixed smaller than pays: ${more}.`;
      return entry.size > 0
        ? `Fixed larger than pays: ${less}.`
        : `Fixed at nothing new; one ${unit} would cost ${money(-value)} a year more than it saves.`;
    default:
      return "";
  }
}

function unbuiltSentence({ entry, unit, existing }: UnsaidEntry, money: (amount: number) => string): string {
  const none = existing > 0 ? "No more than there is" : "Not built";
  if (entry === null) return `${none}: it has no use.`;
  if (entry.factor <= 0) return `${none}: it would not pay even as a gift.`;
  if (entry.factor >= 1 - 1e-6) return `${none}, at a price at which it makes no difference.`;
  return (
    `${none}: it would start to pay at ${money(entry.initialPrice_per_unit)} per ${unit}, ` +
    `with all its prices at ${inWords(entry.factor * 100)} % of those given.`
  );
}

function limitSentence(
  { kind, state, unit, value_per_unit: value }: UnsaidEntry,
  money: (amount: number) => string,
): string {
  if (value === null) return "The program gives it no price.";
  if (state !== "at its limit") return "It costs nothing: the plant would be the same without it.";
  if (kind === "solar-fraction") return `Asking for one ${unit} less would save ${money(value)} a year.`;
  return `One more ${unit} would save ${money(value)} a year.`;
}
