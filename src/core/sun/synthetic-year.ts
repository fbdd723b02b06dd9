import { standardPressure_Pa } from "../air/psychrometrics.ts";
import { ModelError } from "../errors.ts";
import { constantYear } from "../series.ts";
import type { WeatherYear } from "../weather.ts";
import { randomStream } from "./random.ts";
import { type SunSite, sunYear } from "./sun-year.ts";
import { syntheticAmbient_C, syntheticHumidity } from "./synthetic-air.ts";
import { syntheticRadiation } from "./synthetic-radiation.ts";
import { syntheticWind_m_s } from "./synthetic-wind.ts";

/** What is known of a place's weather: twelve monthly means each, January first. */
export interface MonthlyMeans {
  /** Global horizontal over extraterrestrial irradiation, 0.1 to 0.8. */
  readonly clearness: readonly number[];
  readonly ambient_C: readonly number[];
  /** Day's highest less lowest temperature. */
  readonly dailySwing_K: readonly number[];
  /** 0.05 to 1. */
  readonly humidity_share: readonly number[];
  readonly wind_m_s: readonly number[];
  /** Standard atmosphere at the site's elevation where left out. */
  readonly pressure_Pa?: number;
}

/**
 * A made-up weather year with the given monthly means, for a place without a weather file; the same seed
 * gives the same year. Its order of days and hours is invented: docs/methods/synthetic-weather.md says
 * what that allows. Values are rounded to 0.1 W/m², K and m/s and 0.001 of humidity.
 *
 * @throws ModelError OUT_OF_RANGE, SERIES_LENGTH
 */
export function syntheticYear(site: SunSite, means: MonthlyMeans, seed: number): WeatherYear {
  check(means);
  const sun = sunYear(site);
  const pressure_Pa = Math.round(means.pressure_Pa ?? standardPressure_Pa(site.elevation_m));
  // A stream for each quantity, so that one's means do not disturb another's order.
  const stream = (quantity: number) => randomStream(Math.imul(seed, 8) + quantity);
  const light = syntheticRadiation(sun, site.latitude_deg, pressure_Pa, means.clearness, stream(1));
  const ambient = syntheticAmbient_C(sun, means.ambient_C, means.dailySwing_K, light.dayClearness, stream(2));
  return {
    description: `Synthetic year from monthly means, seed ${seed}`,
    ghi_W_m2: light.ghi_W_m2,
    dni_W_m2: light.dni_W_m2,
    dhi_W_m2: light.dhi_W_m2,
    ambient_C: rounded(ambient, 10),
    humidity_share: rounded(syntheticHumidity(ambient, means.humidity_share), 1000),
    wind_m_s: rounded(syntheticWind_m_s(sun, means.wind_m_s, stream(3)), 10),
    pressure_Pa: constantYear(pressure_Pa),
    station: null,
    madeFrom: "monthly-means",
  };
}

function rounded(series: Float64Array, parts: number): Float64Array {
  return series.map((value) => Math.round(value * parts) / parts);
}

function check(means: MonthlyMeans): void {
  const within = (name: string, values: readonly number[], least: number, most: number) => {
    if (values.length !== 12) throw new ModelError("SERIES_LENGTH", `${values.length} months of ${name}`);
    for (const value of values) {
      if (!(value >= least && value <= most)) throw new ModelError("OUT_OF_RANGE", `${name} ${value}`);
    }
  };
  within("clearness", means.clearness, 0.1, 0.8);
  within("ambient_C", means.ambient_C, -60, 55);
  within("dailySwing_K", means.dailySwing_K, 0, 40);
  within("humidity_share", means.humidity_share, 0.05, 1);
  within("wind_m_s", means.wind_m_s, 0.1, 30);
  if (means.pressure_Pa !== undefined && !(means.pressure_Pa > 40000 && means.pressure_Pa < 110000)) {
    throw new ModelError("OUT_OF_RANGE", `pressure_Pa ${means.pressure_Pa}`);
  }
}
