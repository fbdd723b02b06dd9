import { collectorYear } from "../../collector/collector-year.ts";
import { ages } from "../../collector/film-state.ts";
import type { FilmLives } from "../collector-figures.ts";
import type { CollectorMatch } from "../collector-matches.ts";
import type { PlantModel } from "../plant-model.ts";

const triedLives_years = [0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10];

/**
 * Useful heat of a collector on a network for films kept for so many years each, at the film's mean state over
 * its life; null where no named film ages. Lives at whose end no light is left are not tried.
 */
export function filmLives(model: PlantModel, { collector, level }: CollectorMatch): FilmLives | null {
  if (collector.filmPart === undefined || !ages(collector)) return null;
  const { study, sun, weather } = model;
  const climate = { latitude_deg: study.site.latitude_deg, sun, weather };
  const lost_per_year = Math.max(
    collector.ageing_per_year,
    collector.filmAgeing?.transmittanceLost_per_year ?? 0,
    collector.filmAgeing?.reflectanceLost_per_year ?? 0,
  );
  const life_years = triedLives_years.filter((life) => life * lost_per_year < 1);
  return {
    life_years,
    useful_kWh_per_m2: life_years.map((life) => {
      const parts = collector.parts.map((part) =>
        part.name === collector.filmPart ? { ...part, life_years: life } : part,
      );
      return collectorYear({ ...collector, parts }, climate, [level]).levels[0].useful_kWh_per_m2;
    }),
  };
}
