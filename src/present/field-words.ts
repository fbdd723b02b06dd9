import type { Result } from "../core/study/result.ts";
import { asGiven } from "./numbers.ts";
import { power, type Writing } from "./quantities.ts";

/** "108 modules of 12 m²" for the new aperture of a field; empty where it does not come in modules. */
export function modulesInWords(result: Result, id: string, network: string, { locale }: Writing): string {
  const field = result.wholeModules?.fields.find((one) => one.id === id && one.network === network);
  if (field === undefined || field.modules === 0) return "";
  const count = `${field.modules.toLocaleString(locale)} module${field.modules === 1 ? "" : "s"}`;
  return `${count} of ${asGiven(field.module_m2, locale)} m²`;
}

/** Highest useful heat of a field in any hour of the year; null where an earlier version found the answer. */
export function peakInWords(
  result: Result,
  {
    id,
    network,
    aperture_m2,
  }: { readonly id: string; readonly network: string; readonly aperture_m2: number },
  w: Writing,
): string | null {
  const peak = result.collectors?.find((one) => one.id === id && one.network === network)?.peak_W_per_m2;
  return peak === undefined ? null : power((peak / 1000) * aperture_m2, w);
}
