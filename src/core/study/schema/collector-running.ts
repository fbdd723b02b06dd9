import { type Static, Type } from "typebox";
import { quantity, record } from "./building-blocks.ts";

export const Storm = record("Storm", {
  stowWind_m_s: quantity("Stow above a wind of", "m/s at 10 m, hourly mean", { above: 0, most: 60 }),
  returnWind_m_s: Type.Optional(
    quantity("Stays stowed while the wind is above", "m/s at 10 m, hourly mean", {
      least: 0,
      most: 60,
      description: "At most the wind that stows it, which counts if this is left out.",
    }),
  ),
  backAfter_h: Type.Integer({ title: "Back in use after", unit: "h", minimum: 0, maximum: 72 }),
  stowing: Type.Optional(
    Type.Enum(["turned-away", "emptied"], {
      title: "When stowed it is",
      description: "Its blower stands still only where it is emptied; turned away if left out.",
    }),
  ),
});
export type Storm = Static<typeof Storm>;

const lostPerYear = (title: string, description: string) =>
  Type.Optional(quantity(title, "1/a, share of what it was new", { least: 0, most: 0.5, description }));

export const FilmAgeing = record(
  "Ageing of the film",
  {
    transmittanceLost_per_year: lostPerYear(
      "Transmittance lost per year of film age",
      "By yellowing, haze and scratches; counts for each passage through the cover film.",
    ),
    reflectanceLost_per_year: lostPerYear(
      "Reflectance lost per year of film age",
      "By corrosion of the metal layer and scratches.",
    ),
    changeMonth: Type.Optional(
      Type.Integer({
        title: "Month in which the film is changed",
        minimum: 1,
        maximum: 12,
        description:
          "At its start, in the year in which a film's life ends; if left out, the day on which it ends.",
      }),
    ),
  },
  "Beside the optical efficiency lost per year of film age, which counts as well.",
);
export type FilmAgeing = Static<typeof FilmAgeing>;

export const Soiling = record(
  "Soiling and washing",
  {
    lossPerDay: quantity("Light lost to a day's dirt", "share per day", {
      least: 0,
      most: 0.2,
      description: "Of the light of the washed collector, the same for every day since the last washing.",
    }),
    washEvery_days: Type.Integer({
      title: "Washed every",
      unit: "days",
      minimum: 1,
      maximum: 365,
      description: "First before dawn on 1 January.",
    }),
    water_L_per_m2: Type.Optional(
      quantity("Water for a washing", "L/m² of aperture", {
        least: 0,
        most: 100,
        description: "Only told; its price belongs to the upkeep of the parts.",
      }),
    ),
  },
  "Left out: the cleanliness is that of every day.",
);
export type Soiling = Static<typeof Soiling>;

export const Outage = record("Planned outage", {
  fromMonth: Type.Integer({ title: "First day: month", unit: "1", minimum: 1, maximum: 12 }),
  fromDay: Type.Integer({ title: "First day: day of the month", unit: "1", minimum: 1, maximum: 31 }),
  days: Type.Integer({ title: "Out of use for", unit: "days", minimum: 1, maximum: 365 }),
});
export type Outage = Static<typeof Outage>;
