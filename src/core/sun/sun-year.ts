import { hourStart_ms } from "../calendar.ts";
import { hoursPerYear } from "../series.ts";
import { radians } from "../units.ts";
import { deltaT_s } from "./delta-t.ts";
import { solarConstant_W_m2 } from "./extraterrestrial.ts";
import { byGrena } from "./fast-sun.ts";
import { litPart } from "./lit-part.ts";
import { bySpa, type SunSource } from "./sun-source.ts";

/** What the sun's path needs to know of a site; a study's site fits. */
export interface SunSite {
  /** North positive. */
  readonly latitude_deg: number;
  /** East positive. */
  readonly longitude_deg: number;
  /** Part of a site; it moves the sun by less than 0.00001°, so the geometry leaves it out. */
  readonly elevation_m: number;
  readonly utcOffset_h: number;
  readonly calendarYear: number;
}

/** The sun over the study year: every array has 8760 entries, one an hour. */
export interface SunYear {
  /** Share of the hour with the sun's centre above the horizon, 0 to 1. */
  readonly sunlitShare: Float64Array;
  /** Unit vector to the sun at the middle of the sunlit part; 0, 0, 0 where the sun is down all hour. */
  readonly east: Float64Array;
  readonly north: Float64Array;
  readonly up: Float64Array;
  /** At the middle of the sunlit part; NaN where the sun is down all hour. */
  readonly zenith_deg: Float64Array;
  /** Clockwise from north, 0 to 360; NaN where the sun is down all hour. */
  readonly azimuth_deg: Float64Array;
  /** West positive, -180 to 180, at the same instant (the middle of the hour where the sun is down). */
  readonly hourAngle_deg: Float64Array;
  readonly declination_deg: Float64Array;
  /** Irradiance on a plane facing the sun above the air: solar constant / R². */
  readonly extraterrestrialNormal_W_m2: Float64Array;
}

const hour_ms = 3_600_000;
/** Sine of the sun's horizontal parallax at 1 AU, 8.794 arc seconds. */
const parallax = Math.sin((8.794 / 3600) * radians);

/**
 * Direction to the sun for each hour of the study year, without refraction, by the fast series: within
 * 0.005° of the Solar Position Algorithm from 1970 to 2100 (docs/methods/sun.md). In the hours of sunrise
 * and sunset it is taken at the middle of the sunlit part; where a sunset and a sunrise fall into one hour,
 * at the middle of the longer part.
 *
 * @throws ModelError OUT_OF_RANGE where the year lies outside 1941 to 2149
 */
export function sunYear(site: SunSite): SunYear {
  return sunYearBy(byGrena, site);
}

/** The same by the Solar Position Algorithm, the reference. */
export function sunYearBySpa(site: SunSite): SunYear {
  return sunYearBy(bySpa, site);
}

function sunYearBy(source: SunSource, site: SunSite): SunYear {
  const clock = { ...site, timeZone: "Etc/UTC" };
  const midYearDeltaT_s = deltaT_s(site.calendarYear + 0.5);
  const sinLat = Math.sin(site.latitude_deg * radians);
  const cosLat = Math.cos(site.latitude_deg * radians);
  const series = () => new Float64Array(hoursPerYear);
  const year = {
    sunlitShare: series(),
    east: series(),
    north: series(),
    up: series(),
    zenith_deg: series().fill(Number.NaN),
    azimuth_deg: series().fill(Number.NaN),
    hourAngle_deg: series(),
    declination_deg: series(),
    extraterrestrialNormal_W_m2: series(),
  };

  for (let hour = 0; hour < hoursPerYear; hour += 1) {
    const start_ms = hourStart_ms(clock, hour);
    let share = 1;
    let middle_h = 0.5;
    let declination_deg = 0;
    let hourAngle_deg = 0;
    // The second pass takes the sun at the middle of the sunlit part.
    for (let pass = 0; pass < 2; pass += 1) {
      const sun = source(start_ms + middle_h * hour_ms, midYearDeltaT_s);
      declination_deg = sun.declination_deg;
      hourAngle_deg = wrapped(sun.greenwichHourAngle_deg + site.longitude_deg);
      if (pass === 0) {
        year.extraterrestrialNormal_W_m2[hour] = solarConstant_W_m2 / (sun.distance_AU * sun.distance_AU);
      }
      const declination = declination_deg * radians;
      const cosSunset = (parallax - sinLat * Math.sin(declination)) / (cosLat * Math.cos(declination));
      const lit = litPart(hourAngle_deg - middle_h * 15, cosSunset);
      share = lit.share;
      if (share === 0 || lit.middle_h === middle_h) break;
      middle_h = lit.middle_h;
    }
    year.declination_deg[hour] = declination_deg;
    year.hourAngle_deg[hour] = hourAngle_deg;
    if (share === 0) continue;

    const declination = declination_deg * radians;
    const angle = hourAngle_deg * radians;
    const sinDec = Math.sin(declination);
    const cosDec = Math.cos(declination);
    const geocentricUp = sinLat * sinDec + cosLat * cosDec * Math.cos(angle);
    const up = (geocentricUp - parallax) / (1 - parallax * geocentricUp);
    if (!(up > 0)) continue;
    const toSite = 1 / (1 - parallax * geocentricUp);
    const east = -toSite * cosDec * Math.sin(angle);
    const north = toSite * (cosLat * sinDec - sinLat * cosDec * Math.cos(angle));
    year.sunlitShare[hour] = share;
    year.east[hour] = east;
    year.north[hour] = north;
    year.up[hour] = up;
    year.zenith_deg[hour] = Math.acos(Math.min(1, up)) / radians;
    const azimuth_deg = Math.atan2(east, north) / radians;
    year.azimuth_deg[hour] = azimuth_deg < 0 ? azimuth_deg + 360 : azimuth_deg;
  }
  return year;
}

function wrapped(angle_deg: number): number {
  return angle_deg - 360 * Math.floor((angle_deg + 180) / 360);
}
