import type { Study } from "../../core/study/schema/study.ts";
import type { WeatherOptions } from "./read-weather.ts";

/** How a weather file is read for a study: by its site, and by what the user said of its weather. */
export function weatherOptions(
  { site, weather }: Pick<Study, "site" | "weather">,
  file: string,
): WeatherOptions {
  const { distanceAccepted_km, diffuseBy, year } = weather;
  return {
    file,
    site,
    ...(distanceAccepted_km === undefined ? {} : { distanceAccepted_km }),
    ...(year === undefined ? {} : { year }),
    ...(diffuseBy === undefined ? {} : { diffuseBy }),
  };
}
