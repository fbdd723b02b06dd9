import { geocentricSun } from "./spa/geocentric-sun.ts";

/** The sun seen from the earth's centre. */
export interface SunCoordinates {
  readonly declination_deg: number;
  /** At longitude 0, west positive, any turn. */
  readonly greenwichHourAngle_deg: number;
  readonly distance_AU: number;
}

/**
 * Where the sun is at an instant.
 *
 * @param instant_ms UTC, milliseconds since 1970
 * @param deltaT_s terrestrial time less universal time
 */
export type SunSource = (instant_ms: number, deltaT_s: number) => SunCoordinates;

/** The reference: Reda & Andreas, NREL/TP-560-34302 (2008); see geocentricSun. */
export const bySpa: SunSource = (instant_ms, deltaT_s) => {
  const sun = geocentricSun(instant_ms, deltaT_s);
  return {
    declination_deg: sun.declination_deg,
    greenwichHourAngle_deg: sun.apparentSiderealTime_deg - sun.rightAscension_deg,
    distance_AU: sun.distance_AU,
  };
};
