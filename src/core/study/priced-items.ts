import type { NewSizes } from "../dispatch/case.ts";
import type { Part, Study } from "./schema/study.ts";

/** A thing of the study that can be bought, with all its parts and what it takes of shared things. */
export interface PricedItem {
  readonly family: "collector" | "store" | "charger" | "step-down" | "chiller" | "backup";
  /** Its place in the study's list; chargers have the place of their store. */
  readonly index: number;
  readonly name: string;
  readonly unit: string;
  readonly parts: readonly Part[];
  /** m² of land by the unit. */
  readonly land_m2: number;
  /** True for what makes or keeps solar heat: collectors and heat stores. */
  readonly isSolar: boolean;
}

/** Every item of a study that has a price, in the order of its lists; pipes are parts of their collector. */
export function pricedItems(study: Study): PricedItem[] {
  const item = (
    family: PricedItem["family"],
    index: number,
    name: string,
    unit: string,
    parts: readonly Part[],
    isSolar: boolean,
    land_m2 = 0,
  ): PricedItem => ({ family, index, name, unit, parts, land_m2, isSolar });
  return [
    ...study.collectors.map((collector, i) =>
      item(
        "collector",
        i,
        collector.name,
        "m²",
        [...collector.parts, ...pipeParts(collector.pipes)],
        true,
        1 / collector.groundCover,
      ),
    ),
    ...study.stores.map((store, i) =>
      item("store", i, store.name, "kWh", store.parts, store.network !== undefined),
    ),
    ...study.stores.flatMap(({ name, charging, network }, i) =>
      charging === undefined
        ? []
        : [item("charger", i, `Charging of ${name}`, "kW", charging.parts, network !== undefined)],
    ),
    ...study.stepDowns.map(({ id, parts }, i) => item("step-down", i, `Step-down ${id}`, "kW", parts, false)),
    ...study.chillers.map(({ name, parts }, i) => item("chiller", i, name, "kW cold", parts, false)),
    ...study.backups.map(({ name, parts }, i) => item("backup", i, name, "kW", parts, false)),
  ];
}

/** New plant of an item in its unit; aperture of a collector over all its networks. */
export function sizeOfItem(
  item: PricedItem,
  sizes: NewSizes,
  fields: readonly { readonly collector: number }[],
): number {
  const { family, index } = item;
  if (family === "collector")
    return fields.reduce(
      (all, { collector }, f) => (collector === index ? all + sizes.fields_m2[f]! : all),
      0,
    );
  const list = {
    store: sizes.stores_kWh,
    charger: sizes.chargers_kW,
    "step-down": sizes.stepDowns_kW,
    chiller: sizes.chillers_kW,
    backup: sizes.backups_kW,
  }[family];
  return list[index]!;
}

/** Parts by the metre of supply and return pipe, told by the m² of aperture that the pipe serves. */
function pipeParts(pipes: Study["collectors"][number]["pipes"]): Part[] {
  if (pipes?.parts === undefined) return [];
  const metres_per_m2 = pipes.length_m / pipes.forAperture_m2;
  return pipes.parts.map((part) => ({
    ...part,
    price_per_unit: part.price_per_unit * metres_per_m2,
    upkeep_per_unit_year: part.upkeep_per_unit_year * metres_per_m2,
    ...(part.referenceSize === undefined ? {} : { referenceSize: part.referenceSize / metres_per_m2 }),
  }));
}
