import { radians } from "../units.ts";
import { sunRadius_deg, usualHorizonRefraction_deg } from "./solar-position.ts";
import { within180, within360 } from "./spa/angles.ts";
import { geocentricSun } from "./spa/geocentric-sun.ts";

/** UTC instants of one UTC date, ms; rise and set are NaN where the sun stays up or down all day. */
export interface SunEvents {
  readonly sunrise_ms: number;
  readonly transit_ms: number;
  readonly sunset_ms: number;
}

const day_ms = 86_400_000;

/**
 * Sunrise, transit and sunset of the sun's upper limb, refracted, on the UTC date that holds the
 * instant (so west of Greenwich the sunset may be that of the evening before); appendix A.2 of Reda &
 * Andreas, NREL/TP-560-34302 (2008). Flat sea-level horizon.
 */
export function sunEvents(
  instant_ms: number,
  place: { readonly latitude_deg: number; readonly longitude_deg: number; readonly deltaT_s: number },
): SunEvents {
  const dayStart_ms = Math.floor(instant_ms / day_ms) * day_ms;
  const { longitude_deg, deltaT_s } = place;
  const phi = place.latitude_deg * radians;
  const siderealAtStart_deg = geocentricSun(dayStart_ms, deltaT_s).apparentSiderealTime_deg;
  // The three days are taken at 0 h terrestrial time, as the report says.
  const [before, today, after] = [-1, 0, 1].map((days) => geocentricSun(dayStart_ms + days * day_ms, 0));
  const horizon_deg = -(sunRadius_deg + usualHorizonRefraction_deg);

  const alphaBack = within180(today!.rightAscension_deg - before!.rightAscension_deg);
  const alphaOn = within180(after!.rightAscension_deg - today!.rightAscension_deg);
  const deltaBack = today!.declination_deg - before!.declination_deg;
  const deltaOn = after!.declination_deg - today!.declination_deg;

  const at = (share: number) => {
    const sidereal_deg = siderealAtStart_deg + 360.985647 * share;
    const n = share + deltaT_s / 86400;
    const alpha = today!.rightAscension_deg + (n * (alphaBack + alphaOn + (alphaOn - alphaBack) * n)) / 2;
    const delta_deg = today!.declination_deg + (n * (deltaBack + deltaOn + (deltaOn - deltaBack) * n)) / 2;
    const hour_deg = within180(sidereal_deg + longitude_deg - alpha);
    const delta = delta_deg * radians;
    const hour = hour_deg * radians;
    const height_deg =
      Math.asin(Math.sin(phi) * Math.sin(delta) + Math.cos(phi) * Math.cos(delta) * Math.cos(hour)) / radians;
    const climb = 360 * Math.cos(delta) * Math.cos(phi) * Math.sin(hour);
    return { hour_deg, height_deg, climb };
  };

  const noon = within360(today!.rightAscension_deg - longitude_deg - siderealAtStart_deg) / 360;
  const transit_ms = dayStart_ms + (noon - at(noon).hour_deg / 360) * day_ms;

  const delta0 = today!.declination_deg * radians;
  const cosine =
    (Math.sin(horizon_deg * radians) - Math.sin(phi) * Math.sin(delta0)) / (Math.cos(phi) * Math.cos(delta0));
  if (!(Math.abs(cosine) <= 1)) return { sunrise_ms: Number.NaN, transit_ms, sunset_ms: Number.NaN };
  const half = Math.acos(cosine) / radians / 360;
  const crossing = (guess: number) => {
    const share = guess - Math.floor(guess);
    const { height_deg, climb } = at(share);
    return dayStart_ms + (share + (height_deg - horizon_deg) / climb) * day_ms;
  };
  return { sunrise_ms: crossing(noon - half), transit_ms, sunset_ms: crossing(noon + half) };
}
