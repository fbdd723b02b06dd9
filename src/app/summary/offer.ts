import type { Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { replaysIn } from "../../present/promised.ts";
import { area, energy, heatPrice, money, percent, power, volume, years } from "../../present/quantities.ts";
import { writingOf } from "../../present/writing-of.ts";
import type { NoteBook } from "./notes.ts";
import { joinedProse, type Prose, prose } from "./prose.ts";

/** A figure of the offer: its value, what it is and what it assumes. */
export interface OfferFigure {
  readonly value: Prose;
  readonly meaning: string;
  readonly assumes: Prose;
}

/**
 * The offer in one sentence; null where the limits conflict and there is nothing to offer. `result` has
 * the promised figures (present/promised.ts): of a controller without foresight where it was run, else of
 * the bound, and then the sentence says "up to".
 */
export function offerSentence(study: Study, result: Result, notes: NoteBook): Prose | null {
  if (result.status === "infeasible") return null;
  const w = writingOf(study);
  const { annual, sizes } = result;
  const place = study.client ?? study.site.name;
  const plant = plantPieces(study, result, notes);
  if (plant.collectors.length === 0) {
    const now = notes.figure(money(annual.fuelCostWithSolar, w), "avoided");
    return prose`At these prices and limits no collector pays: fuel and electricity for ${place} cost ${now} a year.`;
  }
  const cover = notes.figure(percent(annual.solarFraction, w), "solarFraction");
  const avoided = notes.figure(money(annual.fuelCostAvoided, w), "avoided");
  const capital = notes.figure(money(sizes.initialCapital, w), "capital");
  const whole = joinedProse([...plant.collectors, ...plant.others]);
  return replaysIn(result) === null
    ? prose`${whole} would cover up to ${cover} of the heat that ${place} needs and avoid up to ${avoided} of fuel and electricity in the first year, for ${capital} of new plant.`
    : prose`${whole} would cover ${cover} of the heat that ${place} needs and avoid ${avoided} of fuel and electricity in the first year, run by an ordinary controller, for ${capital} of new plant.`;
}

/** What the offer's figures are, and what the other two ways of running would give; null where none was replayed or nothing is offered. */
export function promiseWords(study: Study, result: Result, notes: NoteBook): Prose | null {
  const replay = replaysIn(result);
  if (replay === null || !result.sizes.collectors.some(({ aperture_m2 }) => aperture_m2 > 0.5)) return null;
  const w = writingOf(study);
  const cover = ({ annual }: Pick<Result, "annual">) =>
    notes.figure(percent(annual.solarFraction, w), "replay");
  const avoid = ({ annual }: Pick<Result, "annual">) =>
    notes.figure(money(annual.fuelCostAvoided, w), "replay");
  const planned =
    replay.twoDay === null
      ? prose``
      : prose` A plan two days ahead would cover ${cover(replay.twoDay)} and avoid ${avoid(replay.twoDay)}.`;
  const gap = notes.figure(money(Math.abs(replay.simple.gap_per_year), w), "replay");
  const less = replay.simple.gap_per_year < 0 ? "more" : "less";
  return prose`These are the figures of a simple controller that does not know tomorrow, run through the year hour by hour.${planned} Perfect foresight would cover ${cover(result)}, avoid ${avoid(result)} and cost ${gap} a year ${less}: that is the bound, and nobody can promise it.`;
}

/** What the plant is made of, as phrases with their figures; existing plant included. */
export function plantPieces(study: Study, result: Result, notes: NoteBook) {
  const w = writingOf(study);
  const { sizes } = result;
  const apertures = new Map<string, number>();
  for (const { id, aperture_m2 } of sizes.collectors)
    apertures.set(id, (apertures.get(id) ?? 0) + aperture_m2);
  const collectors = study.collectors
    .filter(({ id }) => (apertures.get(id) ?? 0) > 0.5)
    .map(
      ({ id, name }) =>
        prose`${notes.figure(area(apertures.get(id)!, w), "aperture")} of ${inSentence(name)}`,
    );
  const stores = sizes.stores.flatMap(({ id, capacity_kWh, volume_m3 }) => {
    if (!(capacity_kWh > 0.5)) return [];
    const amount = notes.figure(`${energy(capacity_kWh, w)} (${volume(volume_m3, w)})`, "store");
    return [prose`${amount} in the ${inSentence(nameOf(study.stores, id))}`];
  });
  const chillers = sizes.chillers.flatMap(({ id, cold_kW }) => {
    if (!(cold_kW > 0.05)) return [];
    return [
      prose`${notes.figure(`${power(cold_kW, w)} of cold`, "equipment")} from the ${inSentence(nameOf(study.chillers, id))}`,
    ];
  });
  return { collectors, others: [...stores, ...chillers] };
}

/** Cost avoided, solar fraction, cost of solar heat and pay-back, each with what it assumes. */
export function offerFigures(study: Study, result: Result, notes: NoteBook): OfferFigure[] {
  const w = writingOf(study);
  const { annual, levelised, money: m } = result;
  const { years: count } = study.money;
  const rate = percent(study.money.realDiscountRate, w);
  const own = result.baseline.fuelCost + result.baseline.electricityCost;
  const without = own - result.withoutCollectors.fuelCost - result.withoutCollectors.electricityCost;
  const backup = levelised.backupHeat.map(({ levelised_per_kWh }) => levelised_per_kWh);
  const overPeriod = notes.figure(money(m.fuelCostAvoidedOverPeriod, w), "avoidedPeriod");
  const aside = notes.figure(money(without, w), "withoutCollectors");
  return [
    {
      value: [notes.figure(money(annual.fuelCostAvoided, w), "avoided")],
      meaning: "fuel and electricity cost avoided a year",
      assumes: prose`${overPeriod} over ${String(count)} years, not discounted. At first-year prices and the film’s mean state; over the period each year at its film’s age. New plant without any collector would avoid ${aside} of it.`,
    },
    {
      value: [notes.figure(percent(annual.solarFraction, w), "solarFraction")],
      meaning: "solar fraction: the share of heat that needs no fuel",
      assumes:
        replaysIn(result) === null
          ? prose`For the one year of weather and demand in the study, run with perfect foresight.`
          : prose`For the one year of weather and demand in the study, run by a controller that does not know tomorrow.`,
    },
    {
      value: [notes.figure(heatPrice(levelised.solarHeat_per_kWh, w), "solarCost")],
      meaning: "levelised cost of the solar heat used",
      assumes:
        backup.length === 0
          ? prose`At ${rate} real over ${String(count)} years.`
          : prose`At ${rate} real over ${String(count)} years. Heat from fuel costs ${notes.figure(
              range(backup, (v) => heatPrice(v, w)),
              "backupCost",
            )} on the same terms.`,
    },
    {
      value: [notes.figure(years(m.simplePayback_years, w), "payback")],
      meaning: "simple pay-back of all new plant",
      assumes: prose`${notes.figure(years(m.discountedPayback_years, w), "payback")} discounted at ${rate}. ${m.remarks.join(" ")}`,
    },
  ];
}

/** "a" or "a to b" of figures with the same unit. */
function range(values: readonly number[], write: (value: number) => string): string {
  const low = write(Math.min(...values));
  const high = write(Math.max(...values));
  return low === high ? low : `${low.replace(/\s\S*$/u, "")} to ${high}`;
}

export function nameOf(list: readonly { readonly id: string; readonly name: string }[], id: string): string {
  return list.find((item) => item.id === id)?.name ?? id;
}

/** A name in the middle of a sentence: "Hot water tank" as "hot water tank", "ACME field" as it is. */
export function inSentence(name: string): string {
  return /^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}
