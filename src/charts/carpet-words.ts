import { monthNames } from "../core/calendar.ts";
import { hoursPerYear } from "../core/series.ts";
import { extremes } from "./axes.ts";
import { hourName, monthStarts } from "./months-of-year.ts";
import { leastThatCounts } from "./working-hours.ts";

interface Told {
  readonly name: string;
  readonly values: Float64Array;
  readonly unit: string;
}

export function carpetReading(data: Told, peak: number, number: (value: number) => string): string {
  const { values, name, unit } = data;
  const least = leastThatCounts(peak);
  let above = 0;
  let total = 0;
  let missing = 0;
  for (const value of values) {
    if (!Number.isFinite(value)) missing += 1;
    else if (value > least) {
      above += 1;
      total += value;
    }
  }
  const gap = gapWords(missing);
  if (above === 0) return `${name} is zero in every hour of the year.${gap}`;
  const when = hourName(values.indexOf(peak));
  return `${name} is above zero in ${number(above)} of ${number(hoursPerYear)} hours, with a mean of ${number(total / above)} ${unit} in those; the highest, ${number(peak)} ${unit}, falls on ${when}.${gap}`;
}

export function carpetTable(values: Float64Array, unit: string, peak: number) {
  const least = leastThatCounts(peak);
  const rows = monthNames.map((name, index) => {
    const month = values.subarray(monthStarts[index]!, monthStarts[index + 1]!).filter(Number.isFinite);
    const mean = month.length === 0 ? "no data" : month.reduce((sum, value) => sum + value, 0) / month.length;
    return [
      name,
      mean,
      month.length === 0 ? "no data" : extremes(month).high,
      month.filter((value) => value > least).length,
    ];
  });
  return { columns: ["Month", `Mean, ${unit}`, `Highest, ${unit}`, "Hours above zero"], rows };
}

/** The same for figures whose zero means nothing, such as temperatures. */
export function levelReading({ name, values, unit }: Told, number: (value: number) => string): string {
  const known = values.filter(Number.isFinite);
  const gap = gapWords(values.length - known.length);
  if (known.length === 0) return `${name} has no data.`;
  const { low, high } = extremes(known);
  const at = (value: number) => `${number(value)} ${unit} on ${hourName(values.indexOf(value))}`;
  return `${name} lies between ${at(low)} and ${at(high)}, with a mean of ${number(meanOf(known))} ${unit}.${gap}`;
}

export function levelTable(values: Float64Array, unit: string) {
  const rows = monthNames.map((name, index) => {
    const month = values.subarray(monthStarts[index]!, monthStarts[index + 1]!).filter(Number.isFinite);
    if (month.length === 0) return [name, "no data", "no data", "no data"];
    const { low, high } = extremes(month);
    return [name, meanOf(month), low, high];
  });
  return { columns: ["Month", `Mean, ${unit}`, `Lowest, ${unit}`, `Highest, ${unit}`], rows };
}

const meanOf = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;

const gapWords = (missing: number) =>
  missing > 0 ? ` ${missing} ${missing === 1 ? "hour has" : "hours have"} no data.` : "";
