import { radians } from "../units.ts";
import type { SunSource } from "./sun-source.ts";

const day_ms = 86_400_000;
const origin_ms = Date.UTC(2060, 0, 1);

/**
 * The sun by a short series for hourly runs: algorithm 5 of R. Grena, Five new algorithms for the computation
 * of sun position from 2010 to 2110, Solar Energy 86 (2012) 1323, its constants from memory; the paper states
 * 0.0027°. Tests hold it to the Solar Position Algorithm. The distance is that of Kepler's ellipse with the
 * equation of the centre, Meeus, Astronomical Algorithms (2nd ed. 1998) ch. 25, within 0.0001.
 */
export const byGrena: SunSource = (instant_ms, deltaT_s) => {
  const t = (instant_ms - origin_ms) / day_ms;
  const te = t + deltaT_s / 86400;

  const anomaly = 0.0172019715 * te;
  const s1 = Math.sin(anomaly);
  const c1 = Math.cos(anomaly);
  const s2 = 2 * s1 * c1;
  const c2 = (c1 + s1) * (c1 - s1);
  const s3 = s2 * c1 + c2 * s1;
  const c3 = c2 * c1 - s2 * s1;
  const heliocentric =
    1.7527901 +
    1.7202792159e-2 * te +
    3.33024e-2 * s1 -
    2.0582e-3 * c1 +
    3.512e-4 * s2 -
    4.07e-5 * c2 +
    5.2e-6 * s3 -
    9e-7 * c3 -
    8.23e-5 * s1 * Math.sin(2.92e-5 * te) +
    1.27e-5 * Math.sin(1.49e-3 * te - 2.337) +
    1.21e-5 * Math.sin(4.31e-3 * te + 3.065) +
    2.33e-5 * Math.sin(1.076e-2 * te - 1.533) +
    3.49e-5 * Math.sin(1.575e-2 * te - 2.358) +
    2.67e-5 * Math.sin(2.152e-2 * te + 0.074) +
    1.28e-5 * Math.sin(3.152e-2 * te + 1.547) +
    3.14e-5 * Math.sin(2.1277e-1 * te - 0.488);
  const node = 9.282e-4 * te - 0.8;
  const nutation = 8.34e-5 * Math.sin(node);
  const longitude = heliocentric + Math.PI + nutation;
  const obliquity = 4.089567e-1 - 6.19e-9 * te + 4.46e-5 * Math.cos(node);

  const sinLongitude = Math.sin(longitude);
  const rightAscension = Math.atan2(sinLongitude * Math.cos(obliquity), Math.cos(longitude));
  return {
    declination_deg: Math.asin(sinLongitude * Math.sin(obliquity)) / radians,
    greenwichHourAngle_deg: (1.7528311 + 6.300388099 * t - rightAscension + 0.92 * nutation) / radians,
    distance_AU: distance_AU((te + 21914.5) / 36525),
  };
};

/** @param century Julian centuries since 1 January 2000, 12:00 */
function distance_AU(century: number): number {
  const anomaly = (357.52911 + century * (35999.05029 - 0.0001537 * century)) * radians;
  const eccentricity = 0.016708634 - 0.000042037 * century;
  const centre =
    (1.914602 - 0.004817 * century) * Math.sin(anomaly) +
    (0.019993 - 0.000101 * century) * Math.sin(2 * anomaly) +
    0.000289 * Math.sin(3 * anomaly);
  return (
    (1.000001018 * (1 - eccentricity * eccentricity)) /
    (1 + eccentricity * Math.cos(anomaly + centre * radians))
  );
}
