import type { Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { asGiven } from "../../present/numbers.ts";
import { energy, volume } from "../../present/quantities.ts";
import { writingOf } from "../../present/writing-of.ts";
import type { NoteBook } from "./notes.ts";
import { type Prose, prose } from "./prose.ts";

/** What the weather does to chillers and cold; nothing where the study leaves it out. */
export function coldWords(study: Study, result: Result, notes: NoteBook): Prose {
  const w = writingOf(study);
  return (result.cold ?? []).flatMap((year): Prose => {
    const load = study.loads.find(({ id }) => id === year.load);
    if (load?.kind !== "cooling") return [];
    const isMoved = study.chillers.some((item) => item.load === load.id && item.byTemperature !== undefined);
    if (!isMoved && load.electricChiller.byAmbient === undefined && load.byWeather === undefined) return [];
    const saved = prose` The cold of ${year.name} saves ${notes.figure(energy(year.electricityAvoided_kWh, w), "cold")} of electricity a year.`;
    if (!isMoved || year.meanCop === null) return saved;
    const cop = asGiven(Math.round(100 * year.meanCop) / 100, w.locale);
    const tower =
      year.towerWater_m3 === null
        ? prose`.`
        : prose`, for which wet towers take ${notes.figure(volume(year.towerWater_m3, w), "cold")} of water.`;
    return [
      ...saved,
      ...prose` With its cooling water hour by hour absorption has a mean COP of ${cop} and rejects ${notes.figure(energy(year.rejected_kWh, w), "cold")} of heat`,
      ...tower,
    ];
  });
}
