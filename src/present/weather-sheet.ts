import { monthNames } from "../core/calendar.ts";
import { stormSpells } from "../core/collector/storm-spells.ts";
import type { Study } from "../core/study/schema/study.ts";
import { monthStarts } from "../core/sun/monthly-means.ts";
import type { SunYear } from "../core/sun/sun-year.ts";
import { closureOf } from "../core/sun/weather-figures.ts";
import { type WeatherSpan, weatherSpans } from "../core/sun/weather-sheet.ts";
import type { WeatherYear } from "../core/weather.ts";
import { asGiven, threeDigits, withDecimals } from "./numbers.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** The data sheet of a study's weather in tables. */
export interface WeatherSheet {
  readonly source: TableView;
  readonly light: TableView;
  readonly air: TableView;
  /** Null where the study has no collector. */
  readonly storms: TableView | null;
}

export function weatherSheet(study: Study, weather: WeatherYear, sun: SunYear): WeatherSheet {
  const { locale } = writingOf(study);
  const { months, year } = weatherSpans(weather, sun, study.site.latitude_deg);
  return {
    source: sourceTable(study, weather, sun, locale),
    ...spanTables(months, year, locale),
    storms: study.collectors.length === 0 ? null : stormTable(study, weather, sun, locale),
  };
}

function sourceTable({ site }: Study, weather: WeatherYear, sun: SunYear, locale: string): TableView {
  const { station } = weather;
  const closure = closureOf(weather, sun);
  const sunlit = sun.sunlitShare.reduce((all, share) => all + share, 0);
  const place = (spot: {
    readonly latitude_deg: number;
    readonly longitude_deg: number;
    readonly elevation_m: number;
  }) =>
    `${asGiven(spot.latitude_deg, locale)}° latitude, ${asGiven(spot.longitude_deg, locale)}° longitude, ${threeDigits(spot.elevation_m, locale)} m`;
  return figuresTable(
    "Where the weather comes from",
    ["", "Found"],
    [
      ["Read as", weather.description],
      ["Site", place(site)],
      ["Station", station === null ? "the file names none" : `${station.name}: ${place(station)}`],
      ["Hours with the sun above the horizon", threeDigits(sunlit, locale)],
      [
        "Global less diffuse and direct radiation, mean of the hours with sun",
        `${withDecimals(closure.mean_W_m2, 1, locale)} W/m², of any sign ${withDecimals(closure.meanAbsolute_W_m2, 1, locale)} W/m²`,
      ],
    ],
    ["Found"],
  );
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

function stormTable(study: Study, weather: WeatherYear, sun: SunYear, locale: string): TableView {
  const hours = (count: number) => count.toLocaleString(locale);
  return figuresTable(
    "Storms by the limits of each collector",
    [
      "Collector",
      "Stows above, m/s",
      "Hours above",
      "Worst month",
      "Times stowed",
      "Longest, h",
      "Hours stowed, with sun",
      "Beam missed, kWh/m²",
    ],
    study.collectors.map((collector) => {
      const storm = stormSpells(weather, sun, collector.storm, monthStarts);
      const worst = Math.max(...storm.hoursAboveByMonth);
      return [
        collector.name,
        asGiven(collector.storm.stowWind_m_s, locale),
        hours(storm.hoursAbove),
        worst === 0 ? "none" : `${monthNames[storm.hoursAboveByMonth.indexOf(worst)]}, ${worst} h`,
        hours(storm.spells),
        hours(storm.longest_h),
        `${hours(storm.stowedHours)}, ${hours(storm.stowedSunlitHours)}`,
        threeDigits(storm.dniMissed_kWh_m2, locale),
      ];
    }),
    ["Worst month"],
  );
}
