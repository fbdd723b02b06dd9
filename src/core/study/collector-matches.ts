import { type CollectorYear, collectorYear } from "../collector/collector-year.ts";
import { type CollectorLevel_C, canServe, collectorLevel } from "../collector/network-levels.ts";
import type { SunYear } from "../sun/sun-year.ts";
import type { WeatherYear } from "../weather.ts";
import type { Collector, Network, Study } from "./schema/study.ts";

/** A collector type at the temperature of a heat network. */
export interface CollectorMatch {
  readonly collector: Collector;
  readonly network: Network;
  readonly level: CollectorLevel_C;
  readonly possible: boolean;
  /** True where the study lets the collector serve the network. */
  readonly offered: boolean;
  readonly remark: string;
  readonly year: CollectorYear;
  /** Index of the network's level in `year.levels`. */
  readonly at: number;
}

/** Every collector at every network: one pass over the year for each collector type. */
export function collectorMatches(study: Study, sun: SunYear, weather: WeatherYear): CollectorMatch[] {
  const levels = study.networks.map(collectorLevel);
  return study.collectors.flatMap((collector) => {
    const year = collectorYear(collector, { latitude_deg: study.site.latitude_deg, sun, weather }, levels);
    return study.networks.map((network, at) => ({
      collector,
      network,
      level: levels[at],
      ...canServe(collector, levels[at]),
      offered: collector.networks.includes(network.id),
      year,
      at,
    }));
  });
}
