import { asGiven } from "./numbers.ts";
import type { Writing } from "./quantities.ts";

/** The life of a part of the plant in words; what keeps its price for ever, as land does, says so. */
export function partLife(life_years: number | null, { locale }: Writing): string {
  return life_years === null ? "keeps its price" : `${asGiven(life_years, locale)} years`;
}
