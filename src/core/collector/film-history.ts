import type { Collector } from "../study/schema/collector.ts";
import { filmLife_years, filmState } from "./film-state.ts";

const monthsPerYear = 12;
/** Lives whose quotient is whole but for rounding are whole. */
const nearlyWhole = 1e-9;

/**
 * When the film is changed within so many years, in years from the start: at the end of each life, or, with
 * `changeMonth`, at the start of that month of the year in which the life ends. So the film is new in the year in
 * which the cash flow pays for it (economics/replacements.ts).
 */
export function filmChanges_years(collector: Collector, years: number): number[] {
  const life_years = filmLife_years(collector);
  const month = collector.filmAgeing?.changeMonth;
  const changes: number[] = [];
  if (!(life_years > 0)) return changes;
  for (let lives = 1; lives * life_years < years - nearlyWhole; lives += 1) {
    const due = lives * life_years;
    changes.push(month === undefined ? due : Math.ceil(due - nearlyWhole) - 1 + (month - 1) / monthsPerYear);
  }
  return changes;
}

/**
 * The film's state in each month of each year of the period, at mid-month: what is new at the start ages until
 * it is changed.
 *
 * @returns as many arrays as years, of twelve states each
 */
export function filmStatesByMonth(collector: Collector, years: number): Float64Array[] {
  const changes = filmChanges_years(collector, years);
  let next = 0;
  let fitted = 0;
  return Array.from({ length: years }, (_, year) =>
    Float64Array.from({ length: monthsPerYear }, (__, month) => {
      const now = year + (month + 0.5) / monthsPerYear;
      while (next < changes.length && changes[next]! <= now) {
        fitted = changes[next]!;
        next += 1;
      }
      return filmState(collector, now - fitted);
    }),
  );
}
