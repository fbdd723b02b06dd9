import type { SunYear } from "../../../src/core/sun/sun-year.ts";

const rad = Math.PI / 180;

/** A year whose first hour has the sun at the given place of the sky; down in all other hours. */
export function skyOf(latitude_deg: number, declination_deg: number, hourAngle_deg: number): SunYear {
  const phi = latitude_deg * rad;
  const delta = declination_deg * rad;
  const omega = hourAngle_deg * rad;
  const east = -Math.cos(delta) * Math.sin(omega);
  const north = Math.cos(phi) * Math.sin(delta) - Math.sin(phi) * Math.cos(delta) * Math.cos(omega);
  const up = Math.sin(phi) * Math.sin(delta) + Math.cos(phi) * Math.cos(delta) * Math.cos(omega);
  const first = (value: number, rest = 0) => {
    const series = new Float64Array(8760).fill(rest);
    series[0] = value;
    return series;
  };
  const azimuth = Math.atan2(east, north) / rad;
  const isUp = up > 0;
  return {
    sunlitShare: first(isUp ? 1 : 0),
    east: first(isUp ? east : 0),
    north: first(isUp ? north : 0),
    up: first(isUp ? up : 0),
    zenith_deg: first(isUp ? Math.acos(up) / rad : Number.NaN, Number.NaN),
    azimuth_deg: first(isUp ? (azimuth + 360) % 360 : Number.NaN, Number.NaN),
    hourAngle_deg: first(hourAngle_deg),
    declination_deg: first(declination_deg),
    extraterrestrialNormal_W_m2: first(1367),
  };
}
