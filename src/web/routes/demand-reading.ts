import type { DemandReading } from "../../core/study/schema/study.ts";
import type { FormEntries } from "../forms/apply-fields.ts";
import { lastValue } from "../plugins/form-body.ts";

const readingFields = [
  "sheet",
  "timeColumn",
  "valueColumn",
  "unit",
  "values",
  "clock",
  "stamp",
  "dateOrder",
  "decimal",
  "delimiter",
  "calendar",
] as const;

/** The answers of the form as a reading; what was left open is left out. */
export function readingOf(form: FormEntries): DemandReading {
  const entries = readingFields
    .map((field) => [field, lastValue(form, field)] as const)
    .filter(([, value]) => value !== "" && value.length <= 200);
  const fuel = fuelOf(form);
  const extend = lastValue(form, "extend");
  const offset_h = readFigure(lastValue(form, "clockOffset_h"));
  return {
    ...Object.fromEntries(entries),
    ...(extend === "" ? {} : { extend: extend === "yes" }),
    ...(Math.abs(offset_h) <= 24 ? { clockOffset_h: offset_h } : {}),
    ...(fuel === null ? {} : { fuel }),
  } as DemandReading;
}

/** The fuel of the form; null where it is not given or cannot be used. */
function fuelOf(form: FormEntries): DemandReading["fuel"] | null {
  const kWh_per_unit = readFigure(lastValue(form, "fuelHeatingValue"));
  const efficiency = readFigure(lastValue(form, "fuelEfficiency"));
  const heatingValueIs = lastValue(form, "fuelHeatingValueIs") === "gross" ? "gross" : "net";
  const norm = lastValue(form, "fuelNorm").trim();
  const norm_per_metered = readFigure(norm);
  const known =
    kWh_per_unit > 0 &&
    kWh_per_unit <= 40 &&
    efficiency > 0 &&
    efficiency <= 1.1 &&
    (norm === "" || (norm_per_metered > 0 && norm_per_metered <= 20));
  if (!known) return null;
  return { kWh_per_unit, heatingValueIs, efficiency, ...(norm === "" ? {} : { norm_per_metered }) };
}

/** Why figures of metered fuel on the form cannot be used; null where they can or none are given. */
export function fuelRefusal(form: FormEntries): string | null {
  const fields = ["fuelHeatingValue", "fuelEfficiency", "fuelNorm"];
  const given = fields.map((field) => lastValue(form, field));
  if (given.every((text) => text.trim() === "") || fuelOf(form) !== null) return null;
  const [value, efficiency, norm] = given.map((text) => (text.trim() === "" ? "nothing" : `"${text}"`));
  return `Metered fuel needs a heating value above 0 and up to 40 kWh per m³ or kg (found ${value}) a boiler efficiency above 0 and up to 1.1 (found ${efficiency}), and a norm volume of a metered m³ above 0 and up to 20, if one (found ${norm}).`;
}

/** NaN where it is no number; a decimal comma is taken too. */
function readFigure(text: string): number {
  return text.trim() === "" ? Number.NaN : Number(text.trim().replace(",", "."));
}
