import type { Collector } from "../study/schema/collector.ts";

/** Optical efficiency of a film so many years old over that of a new one: 1 − ageing·age, not below 0. */
export function filmState(collector: Collector, age_years: number): number {
  return Math.max(0, 1 - collector.ageing_per_year * age_years);
}

/**
 * Years between changes of what ages: the life of the part named by `filmPart`. Without a name the whole
 * collector ages, through the life of its longest-lived part; 0 where there is no part at all.
 */
export function filmLife_years(collector: Collector): number {
  const film = collector.parts.find((part) => part.name === collector.filmPart);
  if (film !== undefined) return film.life_years;
  return collector.parts.reduce((longest, part) => Math.max(longest, part.life_years), 0);
}

/**
 * Mean optical state over the film's life, for sizing: 1 − ageing·life/2. A yield at the mean state lies a
 * little below the mean of the yields through the life, since yields are cut off at 0.
 */
export function meanFilmState(collector: Collector): number {
  const life_years = filmLife_years(collector);
  const lasting_years =
    collector.ageing_per_year > 0 ? Math.min(life_years, 1 / collector.ageing_per_year) : life_years;
  if (life_years === 0) return 1;
  // Where the film would reach 0 within its life the line is cut off there.
  return (lasting_years * (1 - (collector.ageing_per_year * lasting_years) / 2)) / life_years;
}
