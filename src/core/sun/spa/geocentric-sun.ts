import { radians } from "../../units.ts";
import { within360 } from "./angles.ts";
import { earthLatitudeTerms, earthRadiusTerms } from "./earth-latitude-and-radius-terms.ts";
import { earthLongitudeTerms } from "./earth-longitude-terms.ts";
import { type Nutation, nutation } from "./nutation.ts";
import { periodicSeries } from "./periodic-series.ts";

/** The sun as seen from the earth's centre, with every step on the way; angles in degrees. */
export interface GeocentricSun {
  readonly julianDay: number;
  /** Julian ephemeris millennium JME. */
  readonly millennium: number;
  /** Earth heliocentric longitude L, in [0, 360). */
  readonly heliocentricLongitude_deg: number;
  /** Earth heliocentric latitude B. */
  readonly heliocentricLatitude_deg: number;
  /** R. */
  readonly distance_AU: number;
  /** Θ. */
  readonly longitude_deg: number;
  /** β. */
  readonly latitude_deg: number;
  readonly nutation: Nutation;
  /** Δτ. */
  readonly aberration_deg: number;
  /** λ. */
  readonly apparentLongitude_deg: number;
  /** ν₀. */
  readonly meanSiderealTime_deg: number;
  /** ν. */
  readonly apparentSiderealTime_deg: number;
  /** α, in [0, 360). */
  readonly rightAscension_deg: number;
  /** δ. */
  readonly declination_deg: number;
}

/**
 * Position of the sun seen from the earth's centre: the Solar Position Algorithm of Reda & Andreas,
 * NREL/TP-560-34302 (2008), sections 3.1–3.10 (eq. 4–31). The report states 0.0003° for years −2000
 * to 6000; UT1 is taken as UTC (at most 0.9 s, 0.004° of hour angle).
 *
 * @param instant_ms UTC, milliseconds since 1970
 * @param deltaT_s terrestrial time less universal time, s
 */
export function geocentricSun(instant_ms: number, deltaT_s: number): GeocentricSun {
  const julianDay = instant_ms / 86_400_000 + 2440587.5;
  const century = (julianDay - 2451545) / 36525;
  const ephemerisCentury = century + deltaT_s / 86400 / 36525;
  const millennium = ephemerisCentury / 10;

  const heliocentricLongitude_deg = within360(periodicSeries(earthLongitudeTerms, millennium) / radians);
  const heliocentricLatitude_deg = periodicSeries(earthLatitudeTerms, millennium) / radians;
  const distance_AU = periodicSeries(earthRadiusTerms, millennium);
  const longitude_deg = within360(heliocentricLongitude_deg + 180);
  const latitude_deg = -heliocentricLatitude_deg;

  const nutated = nutation(ephemerisCentury);
  const aberration_deg = -20.4898 / (3600 * distance_AU);
  const apparentLongitude_deg = longitude_deg + nutated.longitude_deg + aberration_deg;

  const obliquity = nutated.trueObliquity_deg * radians;
  const meanSiderealTime_deg = within360(
    280.46061837 +
      360.98564736629 * (julianDay - 2451545) +
      century * century * (0.000387933 - century / 38710000),
  );
  const apparentSiderealTime_deg = meanSiderealTime_deg + nutated.longitude_deg * Math.cos(obliquity);

  const lambda = apparentLongitude_deg * radians;
  const beta = latitude_deg * radians;
  const alpha = Math.atan2(
    Math.sin(lambda) * Math.cos(obliquity) - Math.tan(beta) * Math.sin(obliquity),
    Math.cos(lambda),
  );
  const delta = Math.asin(
    Math.sin(beta) * Math.cos(obliquity) + Math.cos(beta) * Math.sin(obliquity) * Math.sin(lambda),
  );
  return {
    julianDay,
    millennium,
    heliocentricLongitude_deg,
    heliocentricLatitude_deg,
    distance_AU,
    longitude_deg,
    latitude_deg,
    nutation: nutated,
    aberration_deg,
    apparentLongitude_deg,
    meanSiderealTime_deg,
    apparentSiderealTime_deg,
    rightAscension_deg: within360(alpha / radians),
    declination_deg: delta / radians,
  };
}
