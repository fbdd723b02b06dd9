import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { DemandUnit } from "./find-unit.ts";

/**
 * One profile as canonical CSV: a header, then hour index (0 to 8759) and value, comma and decimal
 * point. Values must be finite. Every number is written so that reading it back gives the same bits
 * (−0 comes back as 0); readDemand does so with `canonicalReading`.
 */
export function writeHourlyCsv(hourly: Float64Array): string {
  const rows = Array.from(hourly, (value, hour) => `${hour},${value}\n`);
  return `hour,value\n${rows.join("")}`;
}

/** How readDemand must read what writeHourlyCsv wrote; `unit` is the hourly unit of the profile. */
export function canonicalReading(unit: DemandUnit): DemandReading {
  return {
    timeColumn: "hour",
    valueColumn: "value",
    unit,
    values: "interval",
    clock: "standard",
    stamp: "start",
    decimal: ".",
    delimiter: ",",
  };
}
