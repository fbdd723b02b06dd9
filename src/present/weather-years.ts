import { collectorYear } from "../core/collector/collector-year.ts";
import { collectorLevel } from "../core/collector/network-levels.ts";
import { sum } from "../core/series.ts";
import type { Study } from "../core/study/schema/study.ts";
import type { SunYear } from "../core/sun/sun-year.ts";
import type { WeatherYear } from "../core/weather.ts";
import { threeDigits, withDecimals } from "./numbers.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

export interface NamedWeather {
  readonly name: string;
  readonly weather: WeatherYear;
}

/**
 * The weather years of a study beside each other: the one that it is sized for first, then those of its possible
 * years, with the useful heat of each collector on the first heat network that it may serve.
 */
export function weatherYearsTable(study: Study, sun: SunYear, years: readonly NamedWeather[]): TableView {
  const { locale } = writingOf(study);
  const mean = (series: Float64Array) => sum(series) / series.length;
  const collectors = study.collectors.flatMap((collector) => {
    const network = study.networks.find(({ id }) => collector.networks.includes(id));
    return network === undefined ? [] : [{ collector, network }];
  });
  const useful = years.map(({ weather }) =>
    collectors.map(({ collector, network }) => {
      const climate = { latitude_deg: study.site.latitude_deg, sun, weather };
      return collectorYear(collector, climate, [collectorLevel(network)]).levels[0]!.useful_kWh_per_m2;
    }),
  );
  return figuresTable(
    "The study’s weather years beside each other; useful heat in kWh per m² of aperture",
    [
      "Year",
      "Direct normal, kWh/m²",
      "Global, kWh/m²",
      "Mean air, °C",
      "Mean wind, m/s",
      ...collectors.map(({ collector, network }) => `${collector.name} on ${network.name}`),
    ],
    years.map(({ name, weather }, year) => [
      name,
      threeDigits(sum(weather.dni_W_m2) / 1000, locale),
      threeDigits(sum(weather.ghi_W_m2) / 1000, locale),
      withDecimals(mean(weather.ambient_C), 1, locale),
      withDecimals(mean(weather.wind_m_s), 1, locale),
      ...useful[year]!.map((heat, c) => {
        const against = useful[0]![c]!;
        const change =
          year === 0 || !(against > 0) ? "" : ` (${signed(100 * (heat / against - 1), locale)} %)`;
        return `${threeDigits(heat, locale)}${change}`;
      }),
    ]),
  );
}

const signed = (value: number, locale: string) => `${value > 0 ? "+" : ""}${withDecimals(value, 1, locale)}`;
