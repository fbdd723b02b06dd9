import { studyCalendar } from "../../src/core/calendar.ts";
import { profileHours } from "../../src/core/demand/calendar-profile.ts";
import { loadProfile } from "../../src/core/demand/loads/load-profile.ts";
import { resolveLoad } from "../../src/core/demand/loads/resolve-load.ts";
import { constantYear } from "../../src/core/series.ts";
import { type PlantModel, plantModel } from "../../src/core/study/plant-model.ts";
import type { Study } from "../../src/core/study/schema/study.ts";
import { type MonthlyMeans, syntheticYear } from "../../src/core/sun/synthetic-year.ts";
import type { WeatherYear } from "../../src/core/weather.ts";

/** Invented means of a sunny place, the same every month. */
const sunnyMeans: MonthlyMeans = {
  clearness: new Array(12).fill(0.68),
  ambient_C: new Array(12).fill(25),
  dailySwing_K: new Array(12).fill(12),
  humidity_share: new Array(12).fill(0.3),
  wind_m_s: new Array(12).fill(3),
};

const weatherOf = new Map<number, WeatherYear>();

/** A sunny made-up year at the study's site; computed once for each latitude. */
export function sunnyWeather(study: Study): WeatherYear {
  const { latitude_deg } = study.site;
  let weather = weatherOf.get(latitude_deg);
  if (weather === undefined) {
    weather = syntheticYear(study.site, sunnyMeans, 7);
    weatherOf.set(latitude_deg, weather);
  }
  return weather;
}

/** A study in numbers, with a sunny made-up year and profiles that need no file. */
export function plantOf(study: Study): PlantModel {
  const calendar = studyCalendar(study.site);
  const weather = sunnyWeather(study);
  const loads = study.loads.map((load) => {
    const network =
      load.kind === "cooling" ? null : (study.networks.find(({ id }) => id === load.network) ?? null);
    const rate = loadProfile(load)?.rate;
    const profile =
      rate === undefined || rate.from === "file" || rate.from === "bills"
        ? null
        : profileHours(rate, study.calendars, calendar);
    return resolveLoad(load, { profile, network, calendar, weather, elevation_m: study.site.elevation_m });
  });
  return plantModel({
    study,
    weather,
    loads,
    electricityPrice_per_kWh: constantYear(study.electricity.price_per_kWh),
    fuelPrices_per_kWh: study.backups.map(({ fuel: { price_per_kWh, hourFactors } }) =>
      hourFactors === undefined
        ? constantYear(price_per_kWh)
        : Float64Array.from(calendar.civilHour, (hour) => price_per_kWh * hourFactors[hour]!),
    ),
  });
}
