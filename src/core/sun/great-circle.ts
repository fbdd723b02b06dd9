import { radians } from "../units.ts";

/** A place on the earth, north and east positive. */
export interface Spot {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}

const earthRadius_km = 6371;

/** Distance along the ground: haversine on a sphere of 6371 km. */
export function greatCircle_km(a: Spot, b: Spot): number {
  const half = (degrees: number) => Math.sin((degrees * radians) / 2) ** 2;
  const chord =
    half(b.latitude_deg - a.latitude_deg) +
    Math.cos(a.latitude_deg * radians) *
      Math.cos(b.latitude_deg * radians) *
      half(b.longitude_deg - a.longitude_deg);
  return 2 * earthRadius_km * Math.asin(Math.min(1, Math.sqrt(chord)));
}
