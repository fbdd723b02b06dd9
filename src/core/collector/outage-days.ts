import { hourIndex } from "../calendar.ts";
import type { Outage } from "../study/schema/collector-running.ts";

const daysPerYear = 365;

/** Days of the year, from 0, that an outage covers; one that reaches past 31 December goes on in January. */
export function daysOfOutage({ fromMonth, fromDay, days }: Outage): number[] {
  const first = hourIndex(fromMonth, fromDay, 0) / 24;
  return Array.from({ length: days }, (_, n) => (first + n) % daysPerYear);
}

/** 1 on days on which the collector is out of use as planned, else 0; 365 days, a new array. */
export function outageDays(outages: readonly Outage[] = []): Uint8Array {
  const out = new Uint8Array(daysPerYear);
  for (const outage of outages) for (const day of daysOfOutage(outage)) out[day] = 1;
  return out;
}
