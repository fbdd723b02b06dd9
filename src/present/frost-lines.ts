import type { Study } from "../core/study/schema/study.ts";
import { isBuilt, type NamedCollectorYear } from "./collector-losses.ts";
import { asGiven, threeDigits } from "./numbers.ts";
import { energy } from "./quantities.ts";
import { writingOf } from "./writing-of.ts";

/** What keeping each collector from freezing takes in a year, a sentence a collector and heat network. */
export function frostLines(study: Study, years: readonly NamedCollectorYear[]): string[] {
  const w = writingOf(study);
  const count = (number: number, one: string, many: string) =>
    `${asGiven(Math.round(number), w.locale)} ${Math.round(number) === 1 ? one : many}`;
  return years.flatMap((year) => {
    const { frost, losses } = year.figures;
    if (frost === undefined || frost === null) return [];
    const kind = study.collectors.find(({ id }) => id === year.id)?.frost?.by ?? "electric";
    const field = (kWh_per_m2: number) =>
      isBuilt(year) ? `, ${energy(kWh_per_m2 * year.aperture_m2, w)} for its field` : "";
    const name = `${year.collector} on ${year.network}`;
    if (kind === "drain")
      return [
        `Against frost: ${name} is drained ${count(frost.drainings, "time", "times")} a year; filling it again loses ${threeDigits(losses.frost, w.locale)} kWh/m² of heat${field(losses.frost)}.`,
      ];
    return [
      `Against frost: ${name} takes ${threeDigits(frost.heating_kWh_per_m2, w.locale)} kWh/m² of electricity a year${field(frost.heating_kWh_per_m2)}, in ${count(frost.heatedHours, "hour", "hours")}; it is part of the electricity above.`,
    ];
  });
}
