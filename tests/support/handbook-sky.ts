import { hourlyExtraterrestrialShare, hourlyGlobalShare } from "../../src/core/sun/radiation.ts";
import { radians } from "../../src/core/units.ts";

/**
 * Correlations of the handbook (D&B: Duffie & Beckman, 4th ed. 2013) that the program does not use: it goes
 * hour by hour. They are here as an independent way to the same figures.
 */

/** Diffuse share of a day; Erbs, Klein & Duffie 1982, D&B eq. 2.11.1. */
export function erbsDay(clearness: number, sunset_deg: number): number {
  const k = clearness;
  if (sunset_deg <= 81.4)
    return k < 0.715 ? 1 - 0.2727 * k + 2.4495 * k ** 2 - 11.9514 * k ** 3 + 9.3879 * k ** 4 : 0.143;
  return k < 0.722 ? 1 + 0.2832 * k - 2.5557 * k ** 2 + 0.8448 * k ** 3 : 0.175;
}

/** Diffuse share of a month's mean day, clearness 0.3 to 0.8; same source, D&B eq. 2.12.1. */
export function erbsMonth(clearness: number, sunset_deg: number): number {
  const k = clearness;
  return sunset_deg <= 81.4
    ? 1.391 - 3.56 * k + 4.189 * k ** 2 - 2.137 * k ** 3
    : 1.311 - 3.022 * k + 3.427 * k ** 2 - 1.821 * k ** 3;
}

/** Declination, degrees; Cooper, D&B eq. 1.6.1. */
export function cooper_deg(dayOfYear: number): number {
  return 23.45 * Math.sin(((360 * (284 + dayOfYear)) / 365) * radians);
}

/** Cosine of the zenith angle; D&B eq. 1.6.5. */
export function cosZenith(latitude_deg: number, declination_deg: number, hourAngle_deg: number): number {
  const [phi, delta] = [latitude_deg * radians, declination_deg * radians];
  return (
    Math.cos(phi) * Math.cos(delta) * Math.cos(hourAngle_deg * radians) + Math.sin(phi) * Math.sin(delta)
  );
}

/** Daily beam ratio of a plane that faces the equator, north of it: Liu & Jordan 1962, D&B eq. 2.19.3a–b. */
export function monthlyBeamRatio(latitude_deg: number, declination_deg: number, tilt_deg: number): number {
  const [phi, delta] = [latitude_deg * radians, declination_deg * radians];
  const leaned = phi - tilt_deg * radians;
  const sunset = Math.acos(-Math.tan(phi) * Math.tan(delta));
  const tiltedSunset = Math.min(sunset, Math.acos(-Math.tan(leaned) * Math.tan(delta)));
  const along = (latitude: number, angle: number) =>
    Math.cos(latitude) * Math.cos(delta) * Math.sin(angle) + angle * Math.sin(latitude) * Math.sin(delta);
  return along(leaned, tiltedSunset) / along(phi, sunset);
}

export interface MonthOnPlane {
  readonly latitude_deg: number;
  readonly declination_deg: number;
  readonly tilt_deg: number;
  /** Mean day of the month on the horizontal, and above the air; any one unit. */
  readonly global: number;
  readonly above: number;
  readonly sunset_deg: number;
  readonly albedo: number;
}

/** Mean day on the plane in the unit of `global`: D&B eq. 2.19.1, the monthly clearness method. */
export function monthOnPlane(month: MonthOnPlane) {
  const { latitude_deg, declination_deg, tilt_deg, global, above, sunset_deg, albedo } = month;
  const clearness = global / above;
  const diffuseShare = erbsMonth(clearness, sunset_deg);
  const beamRatio = monthlyBeamRatio(latitude_deg, declination_deg, tilt_deg);
  const sky = (1 + Math.cos(tilt_deg * radians)) / 2;
  const onPlane =
    global * (1 - diffuseShare) * beamRatio + global * diffuseShare * sky + global * albedo * (1 - sky);
  return { clearness, diffuseShare, beamRatio, onPlane };
}

/** Clear-sky transmittance for beam: Hottel, Solar Energy 18 (1976) 129, 23 km visibility, D&B eq. 2.8.1. */
export function hottel(altitude_km: number, cosineOfZenith: number, climate = midLatitudeSummer) {
  const a0 = climate.r0 * (0.4237 - 0.00821 * (6 - altitude_km) ** 2);
  const a1 = climate.r1 * (0.5055 + 0.00595 * (6.5 - altitude_km) ** 2);
  const k = climate.rk * (0.2711 + 0.01858 * (2.5 - altitude_km) ** 2);
  return { a0, a1, k, beam: a0 + a1 * Math.exp(-k / cosineOfZenith) };
}
export const midLatitudeSummer = { r0: 0.97, r1: 0.99, rk: 1.02 } as const;

/** Clear-sky diffuse transmittance: Liu & Jordan 1960, D&B eq. 2.8.5. */
export function liuJordanDiffuse(beam: number): number {
  return 0.271 - 0.294 * beam;
}

/**
 * Share of a month's light on the plane above a critical level, with its steps; Klein 1978, D&B eq. 2.23.5–2.24.2.
 *
 * @param critical_Wh of an hour on the plane; `global` is then Wh/m² of the mean day
 */
export function monthUtilizability(month: MonthOnPlane, critical_Wh: number) {
  const { latitude_deg, declination_deg, tilt_deg, global, sunset_deg, albedo } = month;
  const { clearness, onPlane } = monthOnPlane(month);
  const noonGlobal = hourlyGlobalShare(0, sunset_deg);
  const noonDiffuse = hourlyExtraterrestrialShare(0, sunset_deg);
  const diffuse = (noonDiffuse * erbsDay(clearness, sunset_deg)) / noonGlobal;
  const noonBeamRatio =
    Math.cos((latitude_deg - tilt_deg - declination_deg) * radians) /
    Math.cos((latitude_deg - declination_deg) * radians);
  const sky = (1 + Math.cos(tilt_deg * radians)) / 2;
  const noonRatio = (1 - diffuse) * noonBeamRatio + diffuse * sky + albedo * (1 - sky);
  const ratio = onPlane / global;
  const critical = critical_Wh / (noonGlobal * noonRatio * global);
  const share = kleinUtilizability(clearness, noonRatio / ratio, critical);
  return { noonGlobal, noonDiffuse, noonBeamRatio, noonRatio, ratio, critical, share };
}

/** Daily utilizability: Klein, Solar Energy 21 (1978) 393, D&B eq. 2.23.5. */
export function kleinUtilizability(clearness: number, noonRatio: number, critical: number): number {
  const k = clearness;
  const a = 2.943 - 9.271 * k + 4.031 * k ** 2;
  const b = -4.345 + 8.853 * k - 3.602 * k ** 2;
  const c = -0.17 - 0.306 * k + 2.936 * k ** 2;
  return Math.exp((a + b * noonRatio) * (critical + c * critical ** 2));
}
