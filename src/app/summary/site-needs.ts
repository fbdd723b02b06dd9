import type { Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { modulesInWords, peakInWords } from "../../present/field-words.ts";
import { area, energy, money, power, volume } from "../../present/quantities.ts";
import { writingOf } from "../../present/writing-of.ts";
import type { NoteBook } from "./notes.ts";
import { nameOf } from "./offer.ts";
import { type Prose, prose } from "./prose.ts";

export interface Need {
  readonly what: string;
  readonly amount: Prose;
}

/** Aperture, land, tanks, machines and money that the site must give room to. */
export function siteNeeds(study: Study, result: Result, notes: NoteBook): Need[] {
  const w = writingOf(study);
  const { sizes } = result;
  const needs: Need[] = [];
  const add = (what: string, amount: Prose) => needs.push({ what, amount });
  const standing = (existing: number, text: string) =>
    existing > 0 ? `, of which ${text} stand already` : "";

  const sized = (field: { readonly id: string; readonly network: string; readonly aperture_m2: number }) => {
    const modules = modulesInWords(result, field.id, field.network, w);
    const peak = peakInWords(result, field, w);
    const told = [modules === "" ? "" : `new in ${modules}`, peak === null ? "" : `up to ${peak}`];
    return told
      .filter((words) => words !== "")
      .map((words) => `, ${words}`)
      .join("");
  };
  for (const { id, network, aperture_m2, existing_m2 } of sizes.collectors) {
    if (!(aperture_m2 > 0.5)) continue;
    add(
      `${nameOf(study.collectors, id)} on ${nameOf(study.networks, network)}`,
      prose`${notes.figure(area(aperture_m2, w), "aperture")} of aperture${standing(existing_m2, area(existing_m2, w))}${sized({ id, network, aperture_m2 })}`,
    );
  }
  const { land_m2 } = study.limits;
  add(
    "Land",
    prose`${notes.figure(area(sizes.land_m2, w), "land")}${land_m2 === undefined ? "" : ` of ${area(land_m2, w)} that may be used`}`,
  );
  for (const { id, capacity_kWh, volume_m3, existing_kWh } of sizes.stores) {
    if (!(capacity_kWh > 0.5)) continue;
    add(
      nameOf(study.stores, id),
      prose`${notes.figure(volume(volume_m3, w), "store")} of tank for ${energy(capacity_kWh, w)}${standing(existing_kWh, energy(existing_kWh, w))}`,
    );
  }
  for (const { id, charge_kW } of sizes.stores) {
    if (charge_kW === null || !(charge_kW > 0.05)) continue;
    const existing_kW = study.stores.find((store) => store.id === id)?.charging?.existing_kW ?? 0;
    add(
      `Charging of ${nameOf(study.stores, id)}`,
      prose`${notes.figure(power(charge_kW, w), "equipment")}${standing(existing_kW, power(existing_kW, w))}`,
    );
  }
  for (const { id, cold_kW, existing_kW } of sizes.chillers) {
    if (!(cold_kW > 0.05)) continue;
    add(
      nameOf(study.chillers, id),
      prose`${notes.figure(power(cold_kW, w), "equipment")} of cold${standing(existing_kW, power(existing_kW, w))}`,
    );
  }
  for (const { id, heat_kW, existing_kW } of sizes.stepDowns) {
    if (!(heat_kW > 0.05)) continue;
    const item = study.stepDowns.find((stepDown) => stepDown.id === id);
    const ends =
      item === undefined ? id : `${nameOf(study.networks, item.from)} to ${nameOf(study.networks, item.to)}`;
    add(
      `Exchanger, ${ends}`,
      prose`${notes.figure(power(heat_kW, w), "equipment")}${standing(existing_kW, power(existing_kW, w))}`,
    );
  }
  for (const { id, heat_kW } of sizes.backups) {
    if (!(heat_kW > 0.05)) continue;
    add(`New ${nameOf(study.backups, id)}`, prose`${notes.figure(power(heat_kW, w), "equipment")}`);
  }
  add("First cost", prose`${notes.figure(money(sizes.initialCapital, w), "capital")}`);
  return needs;
}
