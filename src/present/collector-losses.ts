import { leastField_m2, spilledShare } from "../core/study/collector-figures.ts";
import type { CollectorFigures, Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { asGiven, threeDigits } from "./numbers.ts";
import { volume } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** The year of a collector on a heat network under the names of the study. */
export interface NamedCollectorYear {
  readonly id: string;
  readonly collector: string;
  readonly network: string;
  readonly meanFluid_C: number;
  readonly aperture_m2: number;
  readonly figures: CollectorFigures;
}

/** Every collector on every heat network that it may serve and is hot enough for; none of an answer of an earlier version. */
export function collectorYears(study: Study, result: Result): NamedCollectorYear[] {
  return (result.collectors ?? []).flatMap((figures) => {
    const { id, network } = figures;
    const match = result.match.find((row) => row.collector === id && row.network === network);
    if (match === undefined || !match.possible) return [];
    const size = result.sizes.collectors.find((one) => one.id === id && one.network === network);
    return [
      {
        id,
        collector: study.collectors.find((one) => one.id === id)?.name ?? id,
        network: study.networks.find((one) => one.id === network)?.name ?? network,
        meanFluid_C: match.meanFluid_C,
        aperture_m2: size?.aperture_m2 ?? 0,
        figures,
      },
    ];
  });
}

export const isBuilt = ({ aperture_m2 }: NamedCollectorYear) => aperture_m2 > leastField_m2;

/**
 * The built collectors with the spill of the result's own networks, shared in proportion to what each could
 * give: for the promised result this is the spill that is promised, not that of perfect foresight.
 */
export function builtYears(study: Study, result: Result): NamedCollectorYear[] {
  const built = collectorYears(study, result).filter(isBuilt);
  return built.map((year) => {
    const { network, useful_kWh_per_m2 } = year.figures;
    const beside = built.filter(({ figures }) => figures.network === network);
    const collectable_kWh = beside.reduce(
      (sum, { aperture_m2, figures }) => sum + aperture_m2 * figures.useful_kWh_per_m2,
      0,
    );
    const spill_kWh = result.networks.find(({ id }) => id === network)?.spill_kWh ?? 0;
    const spilled_kWh_per_m2 = useful_kWh_per_m2 * spilledShare(spill_kWh, collectable_kWh);
    const used_kWh_per_m2 = useful_kWh_per_m2 - spilled_kWh_per_m2;
    return { ...year, figures: { ...year.figures, spilled_kWh_per_m2, used_kWh_per_m2 } };
  });
}

/** What the chain of losses does not hold: heat used, electricity, standstill. */
export function collectorYearsTable(study: Study, result: Result): TableView | null {
  const w = writingOf(study);
  const list = collectorYears(study, result);
  if (list.length === 0) return null;
  const heated = list.some(({ figures }) => (figures.frost?.heating_kWh_per_m2 ?? 0) > 0);
  const washed = list.some(({ figures }) => (figures.washingWater_L_per_m2 ?? 0) > 0);
  const water = ({ figures, aperture_m2 }: NamedCollectorYear) => {
    const litres = figures.washingWater_L_per_m2 ?? 0;
    return `${threeDigits(litres, w.locale)} L/m², ${volume((litres * aperture_m2) / 1000, w)}`;
  };
  const per_m2 = (value: number) => threeDigits(Math.abs(value) < 0.005 ? 0 : value, w.locale);
  return figuresTable(
    "A year of each collector, kWh per m² of aperture",
    [
      "Collector",
      "On",
      "Useful",
      "Used",
      "Useful without a cloud",
      "Highest hour, W/m²",
      "Electricity",
      ...(heated ? ["of it against frost"] : []),
      ...(washed ? ["Washing water"] : []),
      "Standstill",
    ],
    list.map((year) => {
      const { figures } = year;
      const built = isBuilt(year);
      return [
        year.collector,
        year.network,
        per_m2(figures.useful_kWh_per_m2),
        built ? per_m2(figures.used_kWh_per_m2 ?? Number.NaN) : "not built",
        figures.cloudless === undefined ? "–" : per_m2(figures.cloudless.useful_kWh_per_m2),
        figures.peak_W_per_m2 === undefined ? "–" : threeDigits(figures.peak_W_per_m2, w.locale),
        per_m2(figures.parasitic_kWh_per_m2),
        ...(heated ? [figures.frost ? per_m2(figures.frost.heating_kWh_per_m2) : "–"] : []),
        ...(washed ? [water(year)] : []),
        figures.stagnation_C === null
          ? "beyond what its loss relation holds"
          : `${asGiven(Math.round(figures.stagnation_C), w.locale)} °C`,
      ];
    }),
    ["On"],
  );
}

/** How hot each collector becomes when the sun shines and nothing takes its heat, and what that means. */
export function standstillSentences(study: Study, years: readonly NamedCollectorYear[]): string[] {
  const w = writingOf(study);
  const seen = new Set<string>();
  const told = years.flatMap(({ id, collector, figures: { stagnation_C } }) => {
    if (seen.has(id)) return [];
    seen.add(id);
    // The one whose temperature cannot be told is the hottest: it must not fall out of the caution.
    if (stagnation_C === null) return [`${collector} hotter than its loss relation can tell`];
    return [`${collector} ${asGiven(Math.round(stagnation_C), w.locale)} °C`];
  });
  if (told.length === 0) return [];
  return [
    `Caution: where the sun shines and no fluid takes the heat away, the absorber reaches about: ${told.join(", ")}. That destroys films, tubes, seals and coatings, cracks oil or sets it on fire, and bursts pipes with trapped water; mirrors must turn away by themselves, on their own power, when flow or mains fail.`,
  ];
}
