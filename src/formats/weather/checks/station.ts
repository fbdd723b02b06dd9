import { greatCircle_km, type Spot } from "../../../core/sun/great-circle.ts";
import type { WeatherCheck, WeatherToCheck } from "../check-weather.ts";
import { weatherProblem } from "../weather-problems.ts";

/** Beyond these the distance is remarked on; common practice, no source. */
const near_km = 30;
const near_m = 200;
/** Beyond this a station is another place unless the study accepts its distance; common practice, no source. */
export const mostDistance_km = 100;
/** A slip of a sign or a swap is told where the place after it lies so near the station. */
const sameSpot_km = 50;

/** Whether the file's station is that of the site: how far it lies along the ground and in height. */
export function checkStation({ weather, site, file, distanceAccepted_km }: WeatherToCheck): WeatherCheck {
  const { station } = weather;
  if (station === null) return { problems: [], findings: [] };
  const distance_km = greatCircle_km(site, station);
  const higher_m = site.elevation_m - station.elevation_m;
  const height = Math.round(Math.abs(higher_m));
  const lies =
    `The station ${station.name} lies ${Math.round(distance_km)} km from the site` +
    (height === 0 ? "" : ` and ${height} m ${higher_m >= 0 ? "below" : "above"} it`);
  const most_km = Math.max(mostDistance_km, distanceAccepted_km ?? 0);
  if (distance_km > most_km) {
    const slip = slipBetween(site, station);
    const problem =
      slip !== null
        ? weatherProblem(
            file,
            "WEATHER_PLACE_TURNED",
            `The file's station ${station.name} is at ${spotInWords(station)} and the site at ${spotInWords(site)}: ${slip}. Correct the site or the head of the file.`,
          )
        : weatherProblem(
            file,
            "WEATHER_STATION_FAR",
            `${lies}; up to ${most_km} km is allowed. Take weather of the site, or write the distance to accept into the study as weather/distanceAccepted_km.`,
          );
    return { problems: [problem], findings: [] };
  }
  if (distance_km <= near_km && Math.abs(higher_m) <= near_m) return { problems: [], findings: [] };
  return {
    problems: [],
    findings: [weatherProblem(file, "WEATHER_STATION_FAR", `${lies}; the weather is used as it stands.`)],
  };
}

/** The slip of the pen that would bring the two together; null where there is none. */
function slipBetween(site: Spot, station: Spot): string | null {
  const { latitude_deg: north, longitude_deg: east } = site;
  const turned: readonly [string, number, number][] = [
    ["they agree with the sign of the latitude turned", -north, east],
    ["they agree with the sign of the longitude turned", north, -east],
    ["they agree with both signs turned", -north, -east],
    ["they agree with latitude and longitude swapped", east, north],
    ["they agree with latitude and longitude swapped and the sign of one turned", -east, north],
    ["they agree with latitude and longitude swapped and the sign of one turned", east, -north],
    ["they agree with latitude and longitude swapped and both signs turned", -east, -north],
  ];
  const found = turned.find(
    ([, latitude_deg, longitude_deg]) =>
      Math.abs(latitude_deg) <= 90 && greatCircle_km({ latitude_deg, longitude_deg }, station) <= sameSpot_km,
  );
  return found?.[0] ?? null;
}

function spotInWords({ latitude_deg, longitude_deg }: Spot): string {
  const degrees = (value: number, positive: string, negative: string) =>
    `${Math.abs(value)}° ${value < 0 ? negative : positive}`;
  return `${degrees(latitude_deg, "north", "south")}, ${degrees(longitude_deg, "east", "west")}`;
}
