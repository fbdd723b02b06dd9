import { found, type Outcome, type Place, type Problem, refused } from "../../core/problem.ts";
import { sum } from "../../core/series.ts";
import { extraterrestrialHorizontal_W_m2 } from "../../core/sun/extraterrestrial.ts";
import { monthStarts } from "../../core/sun/monthly-means.ts";
import { type SunSite, sunYear } from "../../core/sun/sun-year.ts";
import type { MonthlyMeans } from "../../core/sun/synthetic-year.ts";
import { pointNumber } from "./read-column.ts";

/** What is wrong with twelve monthly means. */
export const meansProblems = {
  MEANS_COLUMN: "twelve monthly means need light, temperature, daily swing, humidity and wind, each once",
  MEANS_MONTH: "each month must have one row",
  MEANS_NUMBER: "a monthly mean must be a number within its range",
  MEANS_LIGHT: "a month's global irradiation must be one that the sky above the site can give",
  MEANS_SEED: "the seed must be a whole number",
  MEANS_TURBIDITY: "the turbidity of a clear sky must be that of real air",
  MEANS_FILE: "a file of monthly means must be a CSV with titles or a JSON of lists of twelve",
} as const;

interface MeansQuantityWords {
  readonly words: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
}

/** Quantities of monthly means by their column titles. */
export const meansQuantities = {
  clearness: { words: "clearness index", unit: "", least: 0.1, most: 0.8 },
  ghi_kWh_m2_day: { words: "global horizontal irradiation of a day", unit: "kWh/m²", least: 0, most: 12 },
  ambient_C: { words: "mean temperature", unit: "°C", least: -60, most: 55 },
  dailySwing_K: { words: "daily swing of temperature", unit: "K", least: 0, most: 40 },
  humidity_share: { words: "relative humidity", unit: "", least: 0.05, most: 1 },
  humidity_pct: { words: "relative humidity", unit: "%", least: 5, most: 100 },
  wind_m_s: { words: "mean wind at 10 m", unit: "m/s", least: 0.1, most: 30 },
} as const satisfies Readonly<Record<string, MeansQuantityWords>>;
export type MeansQuantity = keyof typeof meansQuantities;

/** One of each is needed. */
export const meansNeeds: readonly (readonly MeansQuantity[])[] = [
  ["clearness", "ghi_kWh_m2_day"],
  ["ambient_C"],
  ["dailySwing_K"],
  ["humidity_share", "humidity_pct"],
  ["wind_m_s"],
];

/** Twelve cells of text for each quantity that is given, and where a cell stands; null for a month without a row, which the caller tells. */
export interface MeansCells {
  readonly cells: Readonly<Partial<Record<MeansQuantity, readonly (string | null)[]>>>;
  /** Month 0 to 11; null for the column as a whole. */
  readonly placeOf: (quantity: MeansQuantity, month: number | null) => Place;
}

export const monthNames = [
  ...["January", "February", "March", "April", "May", "June"],
  ...["July", "August", "September", "October", "November", "December"],
] as const;

/** Months with less light above the air, kWh/m² a day, have no clearness to speak of. */
const polarNight_kWh_m2 = 0.05;
const polarClearness = 0.4;

/** Monthly means out of typed cells, on the page and in a file alike: every fault with its place. */
export function meansOf({ cells, placeOf }: MeansCells, site: SunSite): Outcome<MonthlyMeans> {
  const problems: Problem[] = [];
  for (const choices of meansNeeds) {
    const given = choices.filter((quantity) => cells[quantity] !== undefined);
    if (given.length === 1) continue;
    const names = choices.map((name) => `${name} (${meansQuantities[name].words})`).join(" or ");
    problems.push({
      code: "MEANS_COLUMN",
      message:
        given.length === 0
          ? `No column ${names} was found; it is needed.`
          : `Both ${given.join(" and ")} are given; one of them is allowed.`,
      place: given.length === 0 ? withoutColumn(placeOf(choices[0]!, null)) : placeOf(given[1]!, null),
    });
  }
  const read = (quantity: MeansQuantity): number[] | null => {
    const { words, unit, least, most }: MeansQuantityWords = meansQuantities[quantity];
    const allowed = `a number from ${`${least}`.replace("-", "−")} to ${most}${unit === "" ? "" : ` ${unit}`} is allowed.`;
    const tell = (month: number, message: string) =>
      problems.push({ code: "MEANS_NUMBER", message, place: placeOf(quantity, month) });
    const empty = monthNames.flatMap((_, month) => (cells[quantity]?.[month]?.trim() === "" ? [month] : []));
    if (empty.length > 0) {
      const names = empty.map((month) => monthNames[month]!);
      const of = empty.length === 12 ? "all twelve months" : names.join(", ");
      tell(empty[0]!, `The ${words} of ${of} is missing; ${allowed}`);
    }
    const values = cells[quantity]?.map((cell, month) => {
      if (cell === null) return Number.NaN;
      const typed = cell.trim();
      const value = pointNumber(typed.replace("−", "-").replace(/^([+-]?\d+),(\d+)$/, "$1.$2"));
      if (value >= least && value <= most) return value;
      if (typed !== "")
        tell(month, `The ${words} of ${monthNames[month]} is "${typed.slice(0, 40)}"; ${allowed}`);
      return Number.NaN;
    });
    return values ?? null;
  };

  const irradiation = read("ghi_kWh_m2_day");
  const given = read("clearness");
  const clearness =
    given ?? (irradiation === null ? null : clearnessOf(irradiation, site, placeOf, problems));
  const ambient_C = read("ambient_C");
  const dailySwing_K = read("dailySwing_K");
  const percent = read("humidity_pct");
  const humidity_share = read("humidity_share") ?? percent?.map((value) => value / 100) ?? null;
  const wind_m_s = read("wind_m_s");
  if (problems.length > 0) return refused(problems);
  return found({
    clearness: clearness!,
    ambient_C: ambient_C!,
    dailySwing_K: dailySwing_K!,
    humidity_share: humidity_share!,
    wind_m_s: wind_m_s!,
  });
}

function withoutColumn({ column: _, row: __, ...place }: Place): Place {
  return place;
}

/** Mean irradiation above the air of a day of each month on the horizontal, kWh/m². */
export function aboveTheAir_kWh_m2(site: SunSite): number[] {
  const above = extraterrestrialHorizontal_W_m2(sunYear(site), site.latitude_deg);
  return monthNames.map((_, month) => {
    const [start, end] = [monthStarts[month]!, monthStarts[month + 1]!];
    return sum(above.subarray(start, end)) / 1000 / ((end - start) / 24);
  });
}

function clearnessOf(
  irradiation: readonly number[],
  site: SunSite,
  placeOf: MeansCells["placeOf"],
  problems: Problem[],
): number[] {
  return aboveTheAir_kWh_m2(site).map((above, month) => {
    const wanted = irradiation[month]!;
    if (Number.isNaN(wanted)) return Number.NaN;
    if (above < polarNight_kWh_m2 && wanted <= 0.8 * above) return polarClearness;
    const clearness = wanted / above;
    const { least, most } = meansQuantities.clearness;
    if (clearness >= least && clearness <= most) return clearness;
    const digits = (value: number) => value.toFixed(2);
    problems.push({
      code: "MEANS_LIGHT",
      message:
        `The irradiation of ${monthNames[month]} is ${wanted} kWh/m² a day, ${above > 0 ? `${digits(clearness)} of the ` : "and "}${digits(above)} kWh/m² above the air at latitude ${site.latitude_deg}°; ` +
        `${least} to ${most} of it, ${digits(least * above)} to ${digits(most * above)} kWh/m², is allowed.`,
      place: placeOf("ghi_kWh_m2_day", month),
    });
    return Number.NaN;
  });
}
