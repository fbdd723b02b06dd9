import type { Problem } from "../../../core/problem.ts";
import { radians } from "../../../core/units.ts";
import type { WeatherToCheck } from "../check-weather.ts";
import { weatherProblem } from "../weather-problems.ts";

const near_km = 30;
const near_m = 200;
const earthRadius_km = 6371;

/** How far the file's station lies from the site, along the ground and in height. */
export function checkStation({ weather, site, file }: WeatherToCheck): Problem[] {
  const { station } = weather;
  if (station === null) return [];
  const distance_km = greatCircle_km(site, station);
  const higher_m = site.elevation_m - station.elevation_m;
  if (distance_km <= near_km && Math.abs(higher_m) <= near_m) return [];
  return [
    weatherProblem(
      file,
      "WEATHER_STATION_FAR",
      `The station ${station.name} lies ${Math.round(distance_km)} km from the site and ${Math.abs(Math.round(higher_m))} m ${higher_m >= 0 ? "below" : "above"} it; ` +
        "the weather is used as it stands.",
    ),
  ];
}

interface Spot {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}

/** Haversine on a sphere of 6371 km. */
export function greatCircle_km(a: Spot, b: Spot): number {
  const half = (degrees: number) => Math.sin((degrees * radians) / 2) ** 2;
  const chord =
    half(b.latitude_deg - a.latitude_deg) +
    Math.cos(a.latitude_deg * radians) *
      Math.cos(b.latitude_deg * radians) *
      half(b.longitude_deg - a.longitude_deg);
  return 2 * earthRadius_km * Math.asin(Math.min(1, Math.sqrt(chord)));
}
