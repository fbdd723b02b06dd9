import type { NewSizes, SizeCase } from "../../dispatch/case.ts";
import type { Formulation } from "../../dispatch/formulate.ts";
import type { PlantModel } from "../plant-model.ts";
import type { PriceKind } from "../result.ts";
import { sharedRowOf } from "./unit-worth.ts";

/** One size that the program chooses or holds, with its column and what a unit of it costs. */
export interface SizeItem {
  readonly kind: PriceKind;
  /** Place in its list of the case. */
  readonly index: number;
  readonly id: string;
  readonly name: string;
  readonly network: string | null;
  readonly unit: string;
  /** New plant in the program's answer. */
  readonly size: number;
  readonly existing: number;
  readonly least: number;
  readonly most: number;
  readonly annualCost_per_unit: number;
  readonly initialCost_per_unit: number;
  /** −1 where the program holds the size without a column. */
  readonly column: number;
  /** The row that several columns share as a bound; −1 for none. */
  readonly sharedRow: number;
}

/** Every size of the study in one list; a new family of plant is one more entry. */
export function sizeItems(model: PlantModel, formulation: Formulation, sizes: NewSizes): SizeItem[] {
  const { study, fields } = model;
  const { problem, layout } = formulation;
  const networkOf = (index: number) => problem.networks[index].id;
  const networkName = (index: number) =>
    study.networks.find(({ id }) => id === networkOf(index))?.name ?? networkOf(index);
  const family = (
    kind: PriceKind,
    unit: string,
    items: readonly { readonly id: string; readonly size: SizeCase }[],
    news: Float64Array,
    columns: Int32Array,
    nameOf: (index: number) => string,
    on: (index: number) => string | null,
  ): SizeItem[] =>
    items.map(({ id, size }, i) => ({
      kind,
      index: i,
      id,
      name: nameOf(i),
      network: on(i),
      unit,
      size: news[i],
      existing: size.existing,
      least: size.least,
      most: size.most,
      annualCost_per_unit: size.annualCost_per_unit,
      initialCost_per_unit: size.initialCost_per_unit,
      column: columns[i],
      sharedRow: -1,
    }));
  return [
    ...problem.fields.map((field, f): SizeItem => {
      const collector = problem.collectors[field.collector];
      const network = networkOf(field.network);
      return {
        kind: "aperture",
        index: f,
        id: collector.id,
        name: `${fields[f].collector.name} on ${networkName(field.network)}`,
        network,
        unit: "m²",
        size: sizes.fields_m2[f],
        existing: field.existing_m2,
        least: field.least_m2,
        most: field.most_m2,
        annualCost_per_unit: collector.annualCost_per_m2,
        initialCost_per_unit: collector.initialCost_per_m2,
        column: layout.sizes.fields[f],
        sharedRow: sharedRowOf(formulation, f),
      };
    }),
    ...family(
      "store",
      "kWh",
      problem.stores,
      sizes.stores_kWh,
      layout.sizes.stores,
      (i) => study.stores[i].name,
      (i) => {
        const { serves } = problem.stores[i];
        return "network" in serves ? networkOf(serves.network) : null;
      },
    ),
    ...problem.stores.flatMap(({ id, serves, charger }, i): SizeItem[] =>
      charger === null
        ? []
        : [
            {
              kind: "charger",
              index: i,
              id,
              name: `Charging of ${study.stores[i].name}`,
              network: "network" in serves ? networkOf(serves.network) : null,
              unit: "kW",
              size: sizes.chargers_kW[i],
              existing: charger.existing,
              least: charger.least,
              most: charger.most,
              annualCost_per_unit: charger.annualCost_per_unit,
              initialCost_per_unit: charger.initialCost_per_unit,
              column: layout.sizes.chargers[i],
              sharedRow: -1,
            },
          ],
    ),
    ...family(
      "step-down",
      "kW",
      problem.stepDowns,
      sizes.stepDowns_kW,
      layout.sizes.stepDowns,
      (i) => {
        const { from, to } = problem.stepDowns[i];
        return `Step-down from ${networkName(from)} to ${networkName(to)}`;
      },
      (i) => networkOf(problem.stepDowns[i].to),
    ),
    ...family(
      "chiller",
      "kW cold",
      problem.chillers,
      sizes.chillers_kW,
      layout.sizes.chillers,
      (i) => study.chillers[i].name,
      (i) => networkOf(problem.chillers[i].network),
    ),
    ...family(
      "backup",
      "kW",
      problem.backups,
      sizes.backups_kW,
      layout.sizes.backups,
      (i) => study.backups[i].name,
      (i) => networkOf(problem.backups[i].network),
    ),
  ].filter(({ existing }) => existing !== Number.POSITIVE_INFINITY);
}
