import { Body, Equator, Horizon, Observer } from "astronomy-engine";
import { desert } from "../support.ts";

const radians = Math.PI / 180;

/** East, north, up. */
export type Direction = readonly [number, number, number];

let found: readonly (Direction | null)[] | undefined;

/**
 * The sun of every hour at Phoenix by a general astronomy library: unit vector at the middle of the part of the
 * hour with the sun above the horizon, found minute by minute; null where it is down.
 */
export function sunApart(): readonly (Direction | null)[] {
  found ??= Array.from({ length: 8760 }, (_, hour) => sunOf(hour));
  return found;
}

function sunOf(hour: number): Direction | null {
  const start = Date.UTC(desert.calendarYear, 0, 1) - desert.utcOffset_h * 3_600_000 + hour * 3_600_000;
  const place = new Observer(desert.latitude_deg, desert.longitude_deg, desert.elevation_m);
  const at = (minute: number): Direction => {
    const time = new Date(start + minute * 60_000);
    const { ra, dec } = Equator(Body.Sun, time, place, true, true);
    const { altitude, azimuth } = Horizon(time, place, ra, dec);
    const flat = Math.cos(altitude * radians);
    return [
      flat * Math.sin(azimuth * radians),
      flat * Math.cos(azimuth * radians),
      Math.sin(altitude * radians),
    ];
  };
  const begins = at(0)[2] > 0;
  const ends = at(60)[2] > 0;
  if (begins && ends) return at(30);
  if (!begins && !ends) return null;
  let minute = 0;
  while (at(minute)[2] > 0 === begins) minute += 1;
  // A lit part shorter than a minute may end before its half minute.
  const sun = at(begins ? minute / 2 : (minute + 60) / 2);
  return sun[2] > 0 ? sun : null;
}
