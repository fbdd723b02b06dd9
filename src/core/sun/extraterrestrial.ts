import { radians } from "../units.ts";
import type { SunYear } from "./sun-year.ts";

/** WMO 1981, the value of D&B and of the correlations used here; later work (Kopp & Lean 2011) gives 1361. */
export const solarConstant_W_m2 = 1367;

/** Normal irradiance above the air on day `n` (1 is 1 January): D&B eq. 1.4.1a, within 0.3 % of solar constant / R². */
export function extraterrestrialNormal_W_m2(dayOfYear: number): number {
  return solarConstant_W_m2 * (1 + 0.033 * Math.cos((360 * dayOfYear * radians) / 365));
}

/** Sunset hour angle, degrees, 0 in polar night and 180 in polar day; D&B eq. 1.6.10. */
export function sunsetHourAngle_deg(latitude_deg: number, declination_deg: number): number {
  const cosine = -Math.tan(latitude_deg * radians) * Math.tan(declination_deg * radians);
  return Math.acos(Math.max(-1, Math.min(1, cosine))) / radians;
}

/** H₀, J/m² on a horizontal plane in a day of the given normal irradiance; D&B eq. 1.10.3. */
export function extraterrestrialDay_J_m2(
  normal_W_m2: number,
  latitude_deg: number,
  declination_deg: number,
): number {
  const sunset_deg = sunsetHourAngle_deg(latitude_deg, declination_deg);
  return extraterrestrialSpan_J_m2(normal_W_m2, latitude_deg, declination_deg, -sunset_deg, sunset_deg);
}

/** I₀, J/m² on a horizontal plane between two hour angles with the sun up; D&B eq. 1.10.4. */
export function extraterrestrialSpan_J_m2(
  normal_W_m2: number,
  latitude_deg: number,
  declination_deg: number,
  from_deg: number,
  to_deg: number,
): number {
  const phi = latitude_deg * radians;
  const delta = declination_deg * radians;
  const turning =
    Math.cos(phi) * Math.cos(delta) * (Math.sin(to_deg * radians) - Math.sin(from_deg * radians));
  const steady = (to_deg - from_deg) * radians * Math.sin(phi) * Math.sin(delta);
  return ((12 * 3600) / Math.PI) * normal_W_m2 * (turning + steady);
}

/**
 * Mean horizontal irradiance above the air in each hour, W/m²: eq. 1.10.4 over the sunlit part. A full
 * hour lies up to 0.3 % below the value at its middle.
 */
export function extraterrestrialHorizontal_W_m2(sun: SunYear, latitude_deg: number): Float64Array {
  return Float64Array.from(sun.sunlitShare, (share, hour) => {
    if (share === 0) return 0;
    const middle = sun.hourAngle_deg[hour]!;
    const half = share * 7.5;
    const normal = sun.extraterrestrialNormal_W_m2[hour]!;
    const declination = sun.declination_deg[hour]!;
    return Math.max(
      0,
      extraterrestrialSpan_J_m2(normal, latitude_deg, declination, middle - half, middle + half) / 3600,
    );
  });
}
