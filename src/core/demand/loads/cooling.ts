import { electricCopYear } from "../../cooling/electric-chiller-year.ts";
import { weatherCold_kW } from "../../cooling/weather-cold.ts";
import { sum } from "../../series.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import type { ColdDemand } from "../resolved-load.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, profileOf } from "./load-inputs.ts";

/**
 * Cold as given, and by the weather where that is asked for, with the electric chiller that serves it today.
 *
 * @throws ModelError SERIES_LENGTH
 */
export function cooling(load: LoadOf<"cooling">, inputs: LoadInputs): ColdDemand {
  const cold_kW = profileOf(load.id, inputs.profile).slice();
  const base_kWh = sum(cold_kW);
  const { byWeather, electricChiller, coldSupply_C } = load;
  if (byWeather !== undefined) {
    const more_kW = weatherCold_kW(byWeather, inputs.weather);
    for (let t = 0; t < cold_kW.length; t += 1) cold_kW[t] += more_kW[t];
  }
  const electricCop = electricCopYear(electricChiller, coldSupply_C, inputs.weather.ambient_C);
  const { cop, existing_kW, byAmbient } = electricChiller;
  const given =
    byWeather === undefined
      ? `Cold as given, ${figure(base_kWh)} kWh in the year`
      : `Cold of ${figure(sum(cold_kW))} kWh in the year, ${figure(base_kWh)} kWh as given and ` +
        `${figure(sum(cold_kW) - base_kWh)} kWh by degree hours above ${figure(byWeather.balance_C, 1)} °C` +
        (byWeather.humidity === undefined ? "" : " and moisture");
  const ofAmbient =
    byAmbient === undefined
      ? ""
      : ` at ${figure(byAmbient.ratedAmbient_C, 1)} °C outdoors, ${figure(least(electricCop), 1)} to ` +
        `${figure(most(electricCop), 1)} in the year's hours`;
  return {
    kind: "cold",
    id: load.id,
    cold_kW,
    electricCop,
    electricLimit_kW: existing_kW ?? null,
    basis:
      `${given} at ${figure(coldSupply_C, 1)} °C; electric chiller with COP ${figure(cop, 1)}${ofAmbient}, ` +
      (existing_kW === undefined
        ? "large enough for any hour."
        : `at most ${figure(existing_kW)} kW of cold.`),
  };
}

const least = (series: Float64Array) => series.reduce((a, b) => Math.min(a, b));
const most = (series: Float64Array) => series.reduce((a, b) => Math.max(a, b));
