import type { Backup } from "../core/study/schema/study.ts";
import { asGiven } from "./numbers.ts";
import { percent, type Writing } from "./quantities.ts";

/** How well a backup turns its fuel into heat, in words: its efficiency, its heat pump, or where its waste heat comes. */
export function backupWords(backup: Backup, w: Writing): string {
  const { efficiency, fuel, heatPump, partLoad = [], comesAt_C } = backup;
  const number = (value: number) => asGiven(value, w.locale);
  if (heatPump !== undefined) {
    const source = heatPump.source.from === "outdoor-air" ? "outdoor air" : "its source by the month";
    return `heat pump from ${source} at ${percent(heatPump.shareOfReversible, w)} of the reversible cycle`;
  }
  if (fuel.kind === "waste-heat") return comesAt_C === undefined ? "" : `at ${number(comesAt_C)} °C`;
  const basis = fuel.kind === "electricity" ? "" : ` ${fuel.heatingValue}`;
  const curve = partLoad.length > 0 ? ", less or more by its load" : "";
  return `efficiency ${number(efficiency)}${basis}${curve}`;
}
