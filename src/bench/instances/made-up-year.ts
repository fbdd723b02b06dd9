import { collectorYear } from "../../core/collector/collector-year.ts";
import type { CollectorBody } from "../../core/collector/records/collector-record.ts";
import { inflatedFilmTrough } from "../../core/collector/records/inflated-film-trough.ts";
import { hoursPerYear } from "../../core/series.ts";
import { monthStarts } from "../../core/sun/monthly-means.ts";
import { randomStream } from "../../core/sun/random.ts";
import { sunYear } from "../../core/sun/sun-year.ts";
import { type MonthlyMeans, syntheticYear } from "../../core/sun/synthetic-year.ts";

/** One year of sun on collectors and of heat wanted, by network from hot to cool. */
export interface MadeUpYear {
  readonly yields_kW_per_m2: readonly Float64Array[];
  readonly demands_kW: readonly Float64Array[];
  /** Of fuel heat against its mean price: a daily and a weekly swing and unrest, never below 0.2. */
  readonly priceSwing: Float64Array;
}

/** Temperatures that the field works at, by network: thermal oil, steam, two of hot water. */
const levels = [
  { collectorIn_C: 200, collectorOut_C: 245 },
  { collectorIn_C: 150, collectorOut_C: 175 },
  { collectorIn_C: 75, collectorOut_C: 95 },
  { collectorIn_C: 45, collectorOut_C: 65 },
];

/** Invented: 28° north, dry and sunny with a cloudier winter. */
const site = {
  latitude_deg: 28,
  longitude_deg: 15,
  elevation_m: 100,
  utcOffset_h: 1,
  calendarYear: 2027,
};
const means: MonthlyMeans = {
  clearness: [0.52, 0.55, 0.59, 0.63, 0.66, 0.7, 0.7, 0.69, 0.65, 0.6, 0.54, 0.5],
  ambient_C: [13, 14, 17, 21, 25, 28, 30, 30, 27, 24, 19, 14],
  dailySwing_K: [10, 11, 12, 13, 13, 13, 12, 12, 12, 11, 10, 10],
  humidity_share: new Array(12).fill(0.5),
  wind_m_s: [4, 4, 4.5, 4.5, 4, 4, 3.5, 3.5, 3.5, 3.5, 4, 4],
};

/** Shifts of each network's load: clock hours of work, days of the week, power at work and between. */
const shifts = [
  { from: 6, to: 22, days: 6, work_kW: 520, rest_kW: 60, winter: 0 },
  { from: 6, to: 20, days: 5, work_kW: 700, rest_kW: 150, winter: 0.1 },
  { from: 0, to: 24, days: 7, work_kW: 400, rest_kW: 400, winter: 0.3 },
  { from: 7, to: 18, days: 6, work_kW: 300, rest_kW: 80, winter: 0.5 },
];

/**
 * A made-up hourly year, from the project's own sun, weather and collector: the same seed gives the same
 * year. Every network has a film trough at its own temperature.
 */
export function madeUpYear(networks: number, seed: number): MadeUpYear {
  const climate = {
    latitude_deg: site.latitude_deg,
    sun: sunYear(site),
    weather: syntheticYear(site, means, seed),
  };
  const collector = {
    ...bodyOf(),
    id: "trough",
    networks: [],
    size: { choice: "free" as const },
    existing_m2: 0,
  };
  const year = collectorYear(collector, climate, levels.slice(0, networks));
  return {
    yields_kW_per_m2: year.levels.map(({ yield_kW_per_m2 }) => yield_kW_per_m2),
    demands_kW: shifts.slice(0, networks).map((shift, k) => demand_kW(shift, 100 * seed + k)),
    priceSwing: priceSwing(100 * seed + 50),
  };
}

const bodyOf = (): CollectorBody => inflatedFilmTrough.body;

/** Shifts with a shut-down of ten days in August, more heat in winter, and a restless meter. */
function demand_kW(shift: (typeof shifts)[number], seed: number): Float64Array {
  const random = randomStream(seed);
  const shutFrom = monthStarts[7]! + 5 * 24;
  return Float64Array.from({ length: hoursPerYear }, (_, hour) => {
    const [day, clock] = [Math.floor(hour / 24), hour % 24];
    const shut = shift.days < 7 && hour >= shutFrom && hour < shutFrom + 240;
    const works = !shut && day % 7 < shift.days && clock >= shift.from && clock < shift.to;
    const season = 1 + shift.winter * Math.cos((2 * Math.PI * (day - 15)) / 365);
    const level_kW = shut ? 0 : works ? shift.work_kW : shift.rest_kW;
    return Math.max(0, level_kW * season * (1 + 0.08 * random.normal()));
  });
}

function priceSwing(seed: number): Float64Array {
  const random = randomStream(seed);
  let drift = 0;
  return Float64Array.from({ length: hoursPerYear }, (_, hour) => {
    drift = 0.98 * drift + 0.04 * random.normal();
    const daily = 0.15 * Math.cos((2 * Math.PI * ((hour % 24) - 19)) / 24);
    const weekly = Math.floor(hour / 24) % 7 >= 5 ? -0.1 : 0;
    return Math.max(0.2, 1 + daily + weekly + drift);
  });
}
