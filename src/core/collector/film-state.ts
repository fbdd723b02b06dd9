import type { Collector } from "../study/schema/collector.ts";

/**
 * Optical efficiency with a film so many years old over that with a new one, not below 0:
 * (1 − ageing·age)·(1 − τ′·age)^passes·(1 − ρ′·age) with τ′ and ρ′ the shares of transmittance and reflectance
 * lost a year (docs/methods/film-ageing.md).
 */
export function filmState(
  { ageing_per_year, filmAgeing = {}, optics }: Collector,
  age_years: number,
): number {
  const left = (lost_per_year: number) => Math.max(0, 1 - lost_per_year * age_years);
  const { transmittanceLost_per_year = 0, reflectanceLost_per_year = 0 } = filmAgeing;
  const passes = optics.by === "measured" ? 0 : optics.filmPasses;
  return left(ageing_per_year) * left(transmittanceLost_per_year) ** passes * left(reflectanceLost_per_year);
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

/** Whether anything of the collector's optics changes with age. */
export function ages({ ageing_per_year, filmAgeing = {} }: Collector): boolean {
  const { transmittanceLost_per_year = 0, reflectanceLost_per_year = 0 } = filmAgeing;
  return ageing_per_year > 0 || transmittanceLost_per_year > 0 || reflectanceLost_per_year > 0;
}

/**
 * Mean optical state over the film's life, for sizing: with ageing alone 1 − ageing·life/2. A yield at the mean state lies a
 * little below the mean of the yields through the life, since yields are cut off at 0.
 */
export function meanFilmState(collector: Collector): number {
  const life_years = filmLife_years(collector);
  if (life_years === 0) return 1;
  if (collector.filmAgeing !== undefined) return simpson((age) => filmState(collector, age), life_years);
  const lasting_years =
    collector.ageing_per_year > 0 ? Math.min(life_years, 1 / collector.ageing_per_year) : life_years;
  // Where the film would reach 0 within its life the line is cut off there.
  return (lasting_years * (1 - (collector.ageing_per_year * lasting_years) / 2)) / life_years;
}

/** Mean of a smooth function from 0 to `end`, by Simpson's rule. */
function simpson(value: (x: number) => number, end: number): number {
  const steps = 64;
  let sum = value(0) + value(end);
  for (let i = 1; i < steps; i += 1) sum += (i % 2 === 1 ? 4 : 2) * value((i * end) / steps);
  return sum / (3 * steps);
}
