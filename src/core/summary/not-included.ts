import { ages } from "../collector/film-state.ts";
import type { Study } from "../study/schema/study.ts";
import { coolingNotIncluded } from "./cooling-not-included.ts";
import { idleNotIncluded } from "./idle-not-included.ts";
import { moneyNotIncluded } from "./money-not-included.ts";
import { pipesNotIncluded } from "./pipes-not-included.ts";
import { steamNotIncluded } from "./steam-not-included.ts";
import { useNotIncluded } from "./use-not-included.ts";

/**
 * What the figures of a study do not count, a sentence each; lines that cannot concern the study are left
 * out. Every sentence must stay true of the program: whoever adds the thing takes its line away.
 */
export function notIncluded(study: Study): string[] {
  const { loads, collectors, stores, backups, electricity, money } = study;
  const has = (kind: Study["loads"][number]["kind"]) => loads.some((load) => load.kind === kind);
  const ruled = equipment(study, (rules) => rules.some((rule) => (rule ?? 0) > 0));
  const unruled = equipment(study, (rules) => rules.every((rule) => !((rule ?? 0) > 0)));
  const when = (applies: boolean, sentence: string) => (applies ? [sentence] : []);
  return [
    "One weather year: figures stand for the one year in the weather file, and good and bad years lie about it; " +
      "neither the weather's change over the period nor a rare storm is in it.",
    "One demand year: the factory is taken to draw the same heat in every year of the period.",
    ...when(
      ruled.length > 0,
      "Minimum loads, start-up and dead bands in the sizing: sizes and the bound are found without them, and only " +
        "the run without foresight keeps to them.",
    ),
    ...when(
      unruled.length > 0,
      `Minimum loads, start-up and dead bands: the study gives none of ${listed(unruled)}, so they run at any ` +
        "part of their power and follow the sun within the hour.",
    ),
    "Start-up longer than an hour, ramps, slow sensors and valves: the controller sees the heat of the " +
      "hour as it is.",
    ...when(
      backups.some((backup) => !hasOwnFuel(backup)),
      "Part load of boilers: each backup without points of its own has one efficiency in every hour, without standby fuel.",
    ),
    ...when(
      backups.some(hasOwnFuel),
      "Part load and standby of boilers in the sizing and the area curve, which go by one efficiency; the year’s fuel counts them.",
    ),
    ...when(backups.length > 0, "Fuel to start boilers from cold."),
    ...coolingNotIncluded(study),
    ...pipesNotIncluded(collectors),
    ...idleNotIncluded(collectors),
    ...useNotIncluded(collectors),
    ...when(
      collectors.some(ages),
      "Ageing of anything but the film, and films that fail or tear before their time; sizes and the year's figures have " +
        "the film's mean state, the money figures each year at its own age.",
    ),
    ...when(
      collectors.some((collector) => collector.storm.stowWind_m_s > 0),
      "Gusts: mirrors stow by the hour's mean wind in the weather file, and damage by wind costs nothing here.",
    ),
    ...when(
      stores.length > 0,
      "Temperatures inside stores: content is one number, delivered at the hot temperature until it is used up; the " +
        "work to keep an empty store hot is not counted.",
    ),
    ...when(
      has("desalination"),
      "Feed, chemicals, brine return, membranes or tubes, cleaning and labour of desalination; only its heat and " +
        "electricity are counted.",
    ),
    ...steamNotIncluded(loads),
    ...when(
      has("hot-water"),
      "Mixing in hot water tanks, their circulation pumps, and cooler heat that could warm part of the cold water.",
    ),
    ...when(
      (study.streams ?? []).length > 0,
      "Exchangers between the factory’s own streams: the least heating is a target for steady flows, not a network " +
        "that was designed; distance, cost, fouling, control and streams that do not run together are not in it.",
    ),
    ...moneyNotIncluded(money),
    "Demand charges, standing charges, take-or-pay and other fixed parts of fuel and electricity contracts" +
      ([electricity, ...backups.map(({ fuel }) => fuel)].some(
        (priced) =>
          priced.hourFactors !== undefined ||
          priced.monthFactors !== undefined ||
          priced.priceFile !== undefined,
      )
        ? "; only the price per kWh by the hour counts."
        : "; only the price per kWh counts."),
    ...when(
      electricity.co2_kg_per_kWh === undefined,
      "CO2 of electricity: no factor is given, so it is left out on both sides.",
    ),
    "CO2 of making, moving and scrapping plant and fuel, and methane and nitrous oxide from burning.",
    ...when(
      money.carbonPrice_per_t > 0,
      "Carbon cost in the first year's fuel cost avoided; it counts in the sizing and in the cash flow.",
    ),
    "Taking the plant down at the end; parts with life left are credited with the rest of their annuity, which is no " +
      "resale price.",
    "Structure, foundations, hydraulics, control and safety systems: this is a sizing, not a design.",
  ];
}

/** Whether a backup's fuel goes by its load or counts its standby. */
function hasOwnFuel({ partLoad = [], standby_kW = 0 }: Study["backups"][number]): boolean {
  return partLoad.length > 0 || standby_kW > 0;
}

/** Kinds of equipment of which some item's rules of running fit. */
function equipment(
  { backups, chillers, loads, stores }: Study,
  fits: (rules: readonly (number | undefined)[]) => boolean,
): string[] {
  const some = (kind: string, rules: readonly (readonly (number | undefined)[])[]) =>
    rules.some(fits) ? [kind] : [];
  return [
    ...some(
      "boilers",
      backups.map(({ leastLoadShare }) => [leastLoadShare]),
    ),
    ...some(
      "chillers",
      chillers.map(({ leastLoadShare, startUp_h }) => [leastLoadShare, startUp_h]),
    ),
    ...some(
      "desalination",
      loads.flatMap((load) => (load.kind === "desalination" ? [[load.leastLoadShare, load.startUp_h]] : [])),
    ),
    ...some(
      "stores",
      stores.map(({ leastPower_kW, contentDeadBand }) => [leastPower_kW, contentDeadBand]),
    ),
  ];
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
