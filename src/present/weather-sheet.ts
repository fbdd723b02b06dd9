import { monthNames } from "../core/calendar.ts";
import { stormSpells } from "../core/collector/storm-spells.ts";
import type { Study } from "../core/study/schema/study.ts";
import { greatCircle_km } from "../core/sun/great-circle.ts";
import { monthStarts } from "../core/sun/monthly-means.ts";
import type { SunYear } from "../core/sun/sun-year.ts";
import { closureOf } from "../core/sun/weather-figures.ts";
import { type WeatherSpan, weatherSpans } from "../core/sun/weather-sheet.ts";
import type { WeatherYear } from "../core/weather.ts";
import { asGiven, threeDigits, withDecimals } from "./numbers.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

interface Place {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly elevation_m: number;
}

/** The data sheet of a study's weather in tables. */
export interface WeatherSheet {
  readonly source: TableView;
  readonly light: TableView;
  readonly air: TableView;
  /** Null where the study has no collector. */
  readonly storms: TableView | null;
  readonly stormMonths: TableView | null;
}

export function weatherSheet(study: Study, weather: WeatherYear, sun: SunYear): WeatherSheet {
  const { locale } = writingOf(study);
  const { months, year } = weatherSpans(weather, sun, study.site.latitude_deg);
  return {
    source: sourceTable(study, weather, sun, locale),
    ...spanTables(months, year, locale),
    ...stormTables(study, weather, sun, locale),
  };
}

function sourceTable({ site }: Study, weather: WeatherYear, sun: SunYear, locale: string): TableView {
  const { station } = weather;
  const closure = closureOf(weather, sun);
  const sunlit = sun.sunlitShare.reduce((all, share) => all + share, 0);
  const place = (spot: Place) =>
    `${asGiven(spot.latitude_deg, locale)}° latitude, ${asGiven(spot.longitude_deg, locale)}° longitude, ${threeDigits(spot.elevation_m, locale)} m`;
  return figuresTable(
    "Where the weather comes from",
    ["", "Found"],
    [
      ["Read as", weather.description],
      ["Site", place(site)],
      ["Station", station === null ? "the file names none" : `${station.name}: ${place(station)}`],
      ...(station === null ? [] : [["Station from the site", apart(site, station, locale)]]),
      ["Hours with the sun above the horizon", threeDigits(sunlit, locale)],
      [
        "Global less diffuse and direct radiation, mean of the hours with sun",
        `${withDecimals(closure.mean_W_m2, 1, locale)} W/m², of any sign ${withDecimals(closure.meanAbsolute_W_m2, 1, locale)} W/m²`,
      ],
    ],
    ["Found"],
  );
}

function apart(site: Place, station: Place, locale: string): string {
  const higher_m = station.elevation_m - site.elevation_m;
  const height =
    Math.abs(higher_m) < 0.5
      ? "at the same height"
      : `${asGiven(Math.round(Math.abs(higher_m)), locale)} m ${higher_m > 0 ? "higher" : "lower"}`;
  return `${withDecimals(greatCircle_km(site, station), 1, locale)} km away, ${height}`;
}

function spanTables(
  months: readonly WeatherSpan[],
  year: WeatherSpan,
  locale: string,
): { readonly light: TableView; readonly air: TableView } {
  const rows = (cells: (span: WeatherSpan) => string[]) => [
    ...months.map((span, month) => [monthNames[month]!, ...cells(span)]),
    ["Year", ...cells(year)],
  ];
  return {
    light: figuresTable(
      "Radiation month by month, kWh/m²",
      ["", "Direct normal", "Global", "Diffuse", "Clearness"],
      rows((span) => [
        threeDigits(span.dni_kWh_m2, locale),
        threeDigits(span.ghi_kWh_m2, locale),
        threeDigits(span.dhi_kWh_m2, locale),
        withDecimals(span.clearness, 2, locale),
      ]),
    ),
    air: figuresTable(
      "Air temperature, °C, and hourly wind at 10 m, m/s",
      ["", "Coldest", "Mean", "Hottest", "Mean wind", "Strongest"],
      rows((span) =>
        [
          span.leastAmbient_C,
          span.meanAmbient_C,
          span.mostAmbient_C,
          span.meanWind_m_s,
          span.mostWind_m_s,
        ].map((value) => withDecimals(value, 1, locale)),
      ),
    ),
  };
}

function stormTables({ collectors }: Study, weather: WeatherYear, sun: SunYear, locale: string) {
  if (collectors.length === 0) return { storms: null, stormMonths: null };
  const each = collectors.map(({ name, storm }) => ({
    name,
    stow: asGiven(storm.stowWind_m_s, locale),
    found: stormSpells(weather, sun, storm, monthStarts),
  }));
  const hours = (count: number) => count.toLocaleString(locale);
  const months = [...monthNames.keys()];
  return {
    storms: figuresTable(
      "Storms by the limits of each collector",
      [
        "Collector",
        "Stows above, m/s",
        "Hours above",
        "Times stowed",
        "Longest, h",
        "Hours stowed",
        "With sun",
        "Beam missed, kWh/m²",
      ],
      each.map(({ name, stow, found }) => [
        name,
        stow,
        hours(found.hoursAbove),
        hours(found.spells),
        hours(found.longest_h),
        hours(found.stowedHours),
        hours(found.stowedSunlitHours),
        threeDigits(found.dniMissed_kWh_m2, locale),
      ]),
    ),
    stormMonths: figuresTable(
      "Hours of wind above the limit, and in brackets hours stowed, month by month",
      ["", ...each.map(({ name, stow }) => `${name}, above ${stow} m/s`)],
      [
        ...months.map((month) => [
          monthNames[month]!,
          ...each.map(
            ({ found }) =>
              `${hours(found.hoursAboveByMonth[month]!)} (${hours(found.stowedHoursByMonth[month]!)})`,
          ),
        ]),
        ["Year", ...each.map(({ found }) => `${hours(found.hoursAbove)} (${hours(found.stowedHours)})`)],
      ],
    ),
  };
}
