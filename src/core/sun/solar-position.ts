import { radians } from "../units.ts";
import { within180, within360 } from "./spa/angles.ts";
import { type GeocentricSun, geocentricSun } from "./spa/geocentric-sun.ts";

/** Where and in what air the sun is seen. */
export interface Observer {
  /** North positive. */
  readonly latitude_deg: number;
  /** East positive. */
  readonly longitude_deg: number;
  readonly elevation_m: number;
  /** Annual mean station pressure, mbar. */
  readonly pressure_mbar: number;
  /** Annual mean air temperature. */
  readonly ambient_C: number;
  /** Terrestrial time less universal time. */
  readonly deltaT_s: number;
  /** Refraction at sunrise and sunset; 0.5667 where left out. */
  readonly horizonRefraction_deg?: number;
}

/** The sun seen from a place, with every step on the way. */
export interface SolarPosition {
  readonly geocentric: GeocentricSun;
  /** H, west positive, in [0, 360). */
  readonly hourAngle_deg: number;
  /** Equatorial horizontal parallax ξ. */
  readonly parallax_deg: number;
  /** Δα. */
  readonly rightAscensionParallax_deg: number;
  /** α′. */
  readonly topocentricRightAscension_deg: number;
  /** δ′. */
  readonly topocentricDeclination_deg: number;
  /** H′. */
  readonly topocentricHourAngle_deg: number;
  /** e₀, without refraction. */
  readonly geometricElevation_deg: number;
  /** Δe. */
  readonly refraction_deg: number;
  /** e. */
  readonly elevation_deg: number;
  readonly zenith_deg: number;
  /** Γ, from south, west positive, in [0, 360). */
  readonly astronomersAzimuth_deg: number;
  /** Φ, clockwise from north, in [0, 360). */
  readonly azimuth_deg: number;
  readonly equationOfTime_min: number;
}

/**
 * Direction to the sun at an instant: the Solar Position Algorithm in full (Reda & Andreas,
 * NREL/TP-560-34302, 2008, sections 3.11–3.14 and appendix A.1). Stated uncertainty 0.0003°.
 * Refraction is added while the sun's upper limb is above the horizon.
 *
 * @param instant_ms UTC, milliseconds since 1970
 */
export function solarPosition(instant_ms: number, observer: Observer): SolarPosition {
  const geocentric = geocentricSun(instant_ms, observer.deltaT_s);
  const phi = observer.latitude_deg * radians;
  const delta = geocentric.declination_deg * radians;
  const hourAngle_deg = within360(
    geocentric.apparentSiderealTime_deg + observer.longitude_deg - geocentric.rightAscension_deg,
  );
  const hour = hourAngle_deg * radians;

  const parallax_deg = 8.794 / (3600 * geocentric.distance_AU);
  const sinParallax = Math.sin(parallax_deg * radians);
  const reduced = Math.atan(0.99664719 * Math.tan(phi));
  const x = Math.cos(reduced) + (observer.elevation_m / 6378140) * Math.cos(phi);
  const y = 0.99664719 * Math.sin(reduced) + (observer.elevation_m / 6378140) * Math.sin(phi);
  const acrossMeridian = Math.cos(delta) - x * sinParallax * Math.cos(hour);
  const shift = Math.atan2(-x * sinParallax * Math.sin(hour), acrossMeridian);
  const delta1 = Math.atan2((Math.sin(delta) - y * sinParallax) * Math.cos(shift), acrossMeridian);
  const hour1 = hour - shift;

  const geometric = Math.asin(
    Math.sin(phi) * Math.sin(delta1) + Math.cos(phi) * Math.cos(delta1) * Math.cos(hour1),
  );
  const geometricElevation_deg = geometric / radians;
  const refraction_deg = refraction(geometricElevation_deg, observer);
  const elevation_deg = geometricElevation_deg + refraction_deg;
  const astronomersAzimuth_deg = within360(
    Math.atan2(Math.sin(hour1), Math.cos(hour1) * Math.sin(phi) - Math.tan(delta1) * Math.cos(phi)) / radians,
  );
  return {
    geocentric,
    hourAngle_deg,
    parallax_deg,
    rightAscensionParallax_deg: shift / radians,
    topocentricRightAscension_deg: geocentric.rightAscension_deg + shift / radians,
    topocentricDeclination_deg: delta1 / radians,
    topocentricHourAngle_deg: hour1 / radians,
    geometricElevation_deg,
    refraction_deg,
    elevation_deg,
    zenith_deg: 90 - elevation_deg,
    astronomersAzimuth_deg,
    azimuth_deg: within360(astronomersAzimuth_deg + 180),
    equationOfTime_min: equationOfTime_min(geocentric),
  };
}

/** Radius of the sun's disc, and refraction at the horizon; the report's values. */
export const sunRadius_deg = 0.26667;
export const usualHorizonRefraction_deg = 0.5667;

function refraction(geometricElevation_deg: number, observer: Observer): number {
  const atHorizon_deg = observer.horizonRefraction_deg ?? usualHorizonRefraction_deg;
  if (!(geometricElevation_deg >= -(sunRadius_deg + atHorizon_deg))) return 0;
  const raised = geometricElevation_deg + 10.3 / (geometricElevation_deg + 5.11);
  const standard_deg = 1.02 / (60 * Math.tan(raised * radians));
  return (observer.pressure_mbar / 1010) * (283 / (273 + observer.ambient_C)) * standard_deg;
}

/** Apparent less mean solar time, minutes; eq. A1–A2 of Reda & Andreas (2008). */
export function equationOfTime_min(sun: GeocentricSun): number {
  const m = sun.millennium;
  const meanLongitude_deg =
    280.4664567 + m * (360007.6982779 + m * (0.03032028 + m * (1 / 49931 + m * (-1 / 15300 - m / 2000000))));
  const obliquity = sun.nutation.trueObliquity_deg * radians;
  return (
    4 *
    within180(
      meanLongitude_deg -
        0.0057183 -
        sun.rightAscension_deg +
        sun.nutation.longitude_deg * Math.cos(obliquity),
    )
  );
}

/** A plane by its slope and its azimuth rotation, from south, west positive (the report's convention). */
export interface ReportPlane {
  readonly slope_deg: number;
  readonly rotation_deg: number;
}

/** Angle between the sun and the normal of a plane; eq. 47 of Reda & Andreas (2008). */
export function incidenceOnPlane_deg(sun: SolarPosition, plane: ReportPlane): number {
  const zenith = sun.zenith_deg * radians;
  const slope = plane.slope_deg * radians;
  const turn = (sun.astronomersAzimuth_deg - plane.rotation_deg) * radians;
  const cosine = Math.cos(zenith) * Math.cos(slope) + Math.sin(slope) * Math.sin(zenith) * Math.cos(turn);
  return Math.acos(Math.max(-1, Math.min(1, cosine))) / radians;
}
