import { monthNames } from "../../core/calendar.ts";
import { collectorLevel } from "../../core/collector/network-levels.ts";
import type { Result } from "../../core/study/result.ts";
import type { Storm } from "../../core/study/schema/collector-running.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { backupWords } from "../../present/backup-words.ts";
import { joined } from "../../present/joined.ts";
import { asGiven } from "../../present/numbers.ts";
import { area, energy, percent, power, volume } from "../../present/quantities.ts";
import { writingOf } from "../../present/writing-of.ts";
import { coldWords } from "./cold-words.ts";
import { mountWords } from "./mount-words.ts";
import type { NoteBook } from "./notes.ts";
import { inSentence, nameOf } from "./offer.ts";
import { type Prose, prose } from "./prose.ts";

/** How the plant works, by day, at night, in winter and in a storm. */
export function systemWords(study: Study, result: Result, notes: NoteBook): Prose[] {
  const w = writingOf(study);
  const { sizes } = result;
  const number = (value: number) => asGiven(value, w.locale);
  const paragraphs: Prose[] = [];

  const fields = sizes.collectors.flatMap(({ id, network, aperture_m2 }): Prose => {
    const collector = study.collectors.find((c) => c.id === id);
    const served = study.networks.find((n) => n.id === network);
    if (!(aperture_m2 > 0.5) || collector === undefined || served === undefined) return [];
    const level = collectorLevel(served);
    return prose`${notes.figure(area(aperture_m2, w), "aperture")} of ${inSentence(collector.name)} (${mountWords(collector.mount)}) heat ${inSentence(served.name)}, ${level.collectorIn_C === level.collectorOut_C ? "at" : `from ${number(level.collectorIn_C)} to`} ${number(level.collectorOut_C)} °C. `;
  });
  if (fields.length > 0) paragraphs.push(fields);

  const stepDowns = sizes.stepDowns.flatMap(({ id, heat_kW }): Prose => {
    const item = study.stepDowns.find((s) => s.id === id);
    if (!(heat_kW > 0.05) || item === undefined) return [];
    return prose`An exchanger of ${notes.figure(power(heat_kW, w), "equipment")} passes heat from ${inSentence(nameOf(study.networks, item.from))} down to ${inSentence(nameOf(study.networks, item.to))}; heat never goes up. `;
  });
  const chillers = sizes.chillers.flatMap(({ id, cold_kW }): Prose => {
    const item = study.chillers.find((c) => c.id === id);
    if (!(cold_kW > 0.05) || item === undefined) return [];
    return prose`${item.name}: ${notes.figure(power(cold_kW, w), "equipment")} of cold for ${inSentence(nameOf(study.loads, item.load))}, from heat of ${inSentence(nameOf(study.networks, item.network))}, in place of the electric chiller whenever that costs less. `;
  });
  const { coldAbsorption_kWh, coldElectric_kWh } = result.annual;
  const cold =
    chillers.length === 0
      ? []
      : prose`Over the year ${notes.figure(energy(coldAbsorption_kWh, w), "cold")} of cold come from heat and ${notes.figure(energy(coldElectric_kWh, w), "cold")} from electricity.`;
  if (stepDowns.length + chillers.length > 0)
    paragraphs.push([...stepDowns, ...chillers, ...cold, ...coldWords(study, result, notes)]);

  const stores = sizes.stores.flatMap(({ id, capacity_kWh, volume_m3 }): Prose => {
    const item = study.stores.find((s) => s.id === id);
    if (!(capacity_kWh > 0.5) || item === undefined) return [];
    const served = item.network ?? item.load ?? "";
    const network = result.networks.find((n) => n.id === served);
    const hours =
      network === undefined || !(network.demand_kWh > 0)
        ? ""
        : `, ${number(Math.round((capacity_kWh / network.demand_kWh) * 87600) / 10)} hours of that network’s mean demand`;
    return prose`${item.name}: ${notes.figure(`${energy(capacity_kWh, w)} (${volume(volume_m3, w)})`, "store")} of ${item.medium.replaceAll("-", " ")} between ${number(item.cold_C)} and ${number(item.hot_C)} °C${hours}. `;
  });
  const night = prose`At night heat comes from the stores as far as they reach, and then from fuel.`;
  if (stores.length > 0) paragraphs.push([...stores, ...night]);
  else if (fields.length > 0) paragraphs.push(prose`There is no store: at night all heat comes from fuel.`);

  const backups = study.backups.map(
    (b) =>
      `${inSentence(b.name)} on ${inSentence(nameOf(study.networks, b.network))} (${[b.fuel.kind.replaceAll("-", " "), backupWords(b, w)].filter((part) => part !== "").join(", ")})`,
  );
  if (backups.length > 0) {
    const least = [...result.months].filter((m) => m.demand_kWh > 0).map((m) => m.backup_kWh / m.demand_kWh);
    const worst =
      least.length === 0 ? "" : `; in the worst month that is ${percent(Math.max(...least), w)} of the heat`;
    paragraphs.push(prose`Backup: ${joined(backups)}. It gives whatever sun and stores do not${worst}.`);
  }
  const back = ({ backAfter_h, returnWind_m_s }: Storm) =>
    `back ${number(backAfter_h)} hours ${returnWind_m_s === undefined ? "later" : `after it has fallen to ${number(returnWind_m_s)} m/s`}`;
  const built = study.collectors.filter(({ id }) =>
    sizes.collectors.some((c) => c.id === id && c.aperture_m2 > 0.5),
  );
  const storms = built.map(
    (c) => `${inSentence(c.name)} above ${number(c.storm.stowWind_m_s)} m/s of hourly wind, ${back(c.storm)}`,
  );
  if (storms.length > 0) paragraphs.push(prose`In a storm the mirrors are stowed: ${joined(storms)}.`);
  const outOfUse = built.flatMap(({ name, outages = [], availability = 1 }) => {
    const planned = outages.map(
      ({ fromMonth, fromDay, days }) => `${days} days from ${fromDay} ${monthNames[fromMonth - 1]}`,
    );
    const under = availability < 1 ? [`${percent(1 - availability, w)} of it at any other time`] : [];
    const told = [...planned, ...under];
    return told.length > 0 ? [`${inSentence(name)} ${joined(told)}`] : [];
  });
  if (outOfUse.length > 0) paragraphs.push(prose`Out of use for upkeep and repair: ${outOfUse.join("; ")}.`);
  const washings = built.flatMap(({ name, soiling }) =>
    soiling === undefined ? [] : [`${inSentence(name)} every ${number(soiling.washEvery_days)} days`],
  );
  const water_m3 = result.annual.washingWater_m3 ?? 0;
  const takes = water_m3 > 0 ? `; that takes ${volume(water_m3, w)} of water a year` : "";
  const pipes = built.flatMap(({ name, pipes: given }) =>
    given === undefined
      ? []
      : [
          `${inSentence(name)} ${number(given.length_m)} m each way for ${area(given.forAperture_m2, w)}, ${number(given.outerDiameter_mm)} mm wide in ${number(given.insulation_mm)} mm of insulation`,
        ],
  );
  if (pipes.length > 0) paragraphs.push(prose`Field pipes: ${pipes.join("; ")}.`);
  const guarded = built.flatMap(({ id, name, frost }) => {
    if (frost === undefined) return [];
    if (frost.by === "drain")
      return [`${inSentence(name)} is drained before it is colder than ${number(frost.keepAbove_C)} °C`];
    const heating_kWh = (result.collectors ?? []).reduce((all, year) => {
      const size = sizes.collectors.find((one) => one.id === year.id && one.network === year.network);
      const mine = year.id === id ? (year.frost?.heating_kWh_per_m2 ?? 0) : 0;
      return all + (size?.aperture_m2 ?? 0) * mine;
    }, 0);
    return [
      `${inSentence(name)} is kept above ${number(frost.keepAbove_C)} °C with ${energy(heating_kWh, w)} of electricity a year`,
    ];
  });
  if (guarded.length > 0) paragraphs.push(prose`Against frost: ${guarded.join("; ")}.`);
  if (washings.length > 0) paragraphs.push(prose`Washing: ${joined(washings)}${takes}.`);
  return paragraphs;
}
