import type { Sizes } from "../core/study/result.ts";
import type { RobustAnswer } from "../core/study/robust/robust-answer.ts";
import type { Study } from "../core/study/schema/study.ts";
import { threeDigits } from "./numbers.ts";
import { area, energy, money, percent, power, type Writing } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** The answer of the section "Several years at once". */
export interface RobustView {
  readonly sentences: readonly string[];
  readonly years: TableView;
  readonly sizes: TableView;
  /** How the answer was found and how well it is known, one sentence. */
  readonly proof: string;
  readonly findings: readonly string[];
}

export function robustView(study: Study, robust: RobustAnswer): RobustView {
  const w = writingOf(study);
  return {
    sentences: robust.sentences,
    years: yearsTable(robust, w),
    sizes: robustSizesTable(study, robust, w),
    proof: proofSentence(robust, w),
    findings: robust.findings,
  };
}

function yearsTable({ years, expected }: RobustAnswer, w: Writing): TableView {
  const lacks = years.some(
    (year) => year.unmet_kWh > 1 || year.unmetCold_kWh > 1 || year.unmetWater_m3 > 0.1,
  );
  const row = (
    name: string,
    share: string,
    figures: Pick<
      RobustAnswer["expected"],
      "annualCost" | "annualCostIfKnown" | "solarFraction" | "fuelCostAvoided"
    >,
    unmet: string,
  ) => [
    name,
    share,
    money(figures.annualCost, w),
    money(figures.annualCostIfKnown, w),
    percent(figures.solarFraction, w),
    money(figures.fuelCostAvoided, w),
    ...(lacks ? [unmet] : []),
  ];
  return figuresTable(
    "Each possible year with the common sizes",
    [
      "Year",
      "Probability",
      "Annual cost",
      "If it had been known",
      "Solar fraction",
      "Fuel cost avoided a year",
      ...(lacks ? ["Not met"] : []),
    ],
    [
      ...years.map((year) => row(year.name, percent(year.probability, w), year, unmetOf(year, w))),
      row("Expected", "", expected, ""),
    ],
  );
}

function unmetOf(year: RobustAnswer["years"][number], w: Writing): string {
  const lacks = [
    ...(year.unmet_kWh > 1 ? [`${energy(year.unmet_kWh, w)} of heat`] : []),
    ...(year.unmetCold_kWh > 1 ? [`${energy(year.unmetCold_kWh, w)} of cold`] : []),
    ...(year.unmetWater_m3 > 0.1 ? [`${threeDigits(year.unmetWater_m3, w.locale)} m³ of water`] : []),
  ];
  return lacks.length === 0 ? "none" : lacks.join(", ");
}

/** New plant: common sizes, the study's own, and the span of what each year alone would have. */
function robustSizesTable(study: Study, { sizes, ownSizes, years }: RobustAnswer, w: Writing): TableView {
  const lines = newPlant(study, sizes);
  const own = newPlant(study, ownSizes.sizes);
  const known = years.map(({ sizesIfKnown }) => newPlant(study, sizesIfKnown));
  const rows = lines.flatMap(({ name, size, write }, i) => {
    const each = known.map((plant) => plant[i]!.size);
    const least = Math.min(...each);
    const most = Math.max(...each);
    if (Math.max(size, own[i]!.size, most) <= 1e-6) return [];
    const told = (value: number) => (value > 1e-6 ? write(value, w) : "none");
    const span = told(least) === told(most) ? told(most) : `${told(least)} to ${told(most)}`;
    return [[name, told(size), told(own[i]!.size), span]];
  });
  return figuresTable(
    "New plant",
    ["Plant", "Common sizes", "The study’s own year", "Each year if known"],
    [
      ...rows,
      [
        "Initial capital",
        money(sizes.initialCapital, w),
        money(ownSizes.sizes.initialCapital, w),
        spanOf(
          years.map(({ sizesIfKnown }) => sizesIfKnown.initialCapital),
          w,
        ),
      ],
    ],
  );
}

function spanOf(values: readonly number[], w: Writing): string {
  const least = money(Math.min(...values), w);
  const most = money(Math.max(...values), w);
  return least === most ? most : `${least} to ${most}`;
}

interface PlantLine {
  readonly name: string;
  readonly size: number;
  readonly write: (size: number, w: Writing) => string;
}

/** Every item that may be built, in one order whatever the sizes. */
function newPlant(study: Study, sizes: Sizes): PlantLine[] {
  const nameIn = (list: readonly { readonly id: string; readonly name: string }[], id: string) =>
    list.find((item) => item.id === id)?.name ?? id;
  const stepDown = (id: string) => {
    const down = study.stepDowns.find((item) => item.id === id);
    if (down === undefined) return id;
    return `Step-down from ${nameIn(study.networks, down.from)} to ${nameIn(study.networks, down.to)}`;
  };
  return [
    ...sizes.collectors.map((c) => ({
      name: `${nameIn(study.collectors, c.id)} on ${nameIn(study.networks, c.network)}`,
      size: c.aperture_m2 - c.existing_m2,
      write: area,
    })),
    ...sizes.stores.map((s) => ({
      name: nameIn(study.stores, s.id),
      size: s.capacity_kWh - s.existing_kWh,
      write: energy,
    })),
    ...sizes.stores.map((s) => ({
      name: `Charging of ${nameIn(study.stores, s.id)}`,
      size: (s.charge_kW ?? 0) - (study.stores.find(({ id }) => id === s.id)?.charging?.existing_kW ?? 0),
      write: power,
    })),
    ...sizes.stepDowns.map((x) => ({ name: stepDown(x.id), size: x.heat_kW - x.existing_kW, write: power })),
    ...sizes.chillers.map((x) => ({
      name: nameIn(study.chillers, x.id),
      size: x.cold_kW - x.existing_kW,
      write: (size: number, w: Writing) => `${power(size, w)} of cold`,
    })),
    ...sizes.backups.map((x) => ({ name: nameIn(study.backups, x.id), size: x.heat_kW, write: power })),
  ];
}

function proofSentence({ proof, years }: RobustAnswer, w: Writing): string {
  const gap =
    proof.relativeGap === null
      ? "its gap is not known"
      : `no other sizes can cost less by more than a share of ${proof.relativeGap.toExponential(0)}`;
  return (
    `Found by ${proof.solver} in one program of ${years.length} ${years.length === 1 ? "year" : "years"} with ` +
    `${proof.columns.toLocaleString(w.locale)} columns in ${threeDigits(proof.solve_s, w.locale)} s; ${gap}.`
  );
}
