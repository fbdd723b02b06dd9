import { radians } from "../../units.ts";
import { nutationTerms } from "./nutation-terms.ts";

/** Nutation and the obliquity of the ecliptic. */
export interface Nutation {
  /** Nutation in longitude Δψ. */
  readonly longitude_deg: number;
  /** Nutation in obliquity Δε. */
  readonly obliquity_deg: number;
  /** ε₀, arc seconds. */
  readonly meanObliquity_arcsec: number;
  /** ε. */
  readonly trueObliquity_deg: number;
}

/** Nutation (63 terms) and obliquity at a Julian ephemeris century; eq. 15–25 of Reda & Andreas (2008). */
export function nutation(century: number): Nutation {
  const t = century;
  const elongation = cubic(t, 297.85036, 445267.11148, -0.0019142, 1 / 189474);
  const sunAnomaly = cubic(t, 357.52772, 35999.05034, -0.0001603, -1 / 300000);
  const moonAnomaly = cubic(t, 134.96298, 477198.867398, 0.0086972, 1 / 56250);
  const moonLatitude = cubic(t, 93.27191, 483202.017538, -0.0036825, 1 / 327270);
  const node = cubic(t, 125.04452, -1934.136261, 0.0020708, 1 / 450000);

  let longitude = 0;
  let obliquity = 0;
  for (const term of nutationTerms) {
    const argument =
      (term[0] * elongation +
        term[1] * sunAnomaly +
        term[2] * moonAnomaly +
        term[3] * moonLatitude +
        term[4] * node) *
      radians;
    longitude += (term[5] + term[6] * t) * Math.sin(argument);
    obliquity += (term[7] + term[8] * t) * Math.cos(argument);
  }
  const longitude_deg = longitude / 36_000_000;
  const obliquity_deg = obliquity / 36_000_000;
  const meanObliquity_arcsec = meanObliquity(t / 100);
  const trueObliquity_deg = meanObliquity_arcsec / 3600 + obliquity_deg;
  return { longitude_deg, obliquity_deg, meanObliquity_arcsec, trueObliquity_deg };
}

function cubic(t: number, a: number, b: number, c: number, d: number): number {
  return a + t * (b + t * (c + t * d));
}

const obliquityPolynomial = [
  84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67, -39.05, 7.12, 27.87, 5.79, 2.45,
] as const;

function meanObliquity(tenMillennia: number): number {
  return obliquityPolynomial.reduceRight<number>((sum, coefficient) => sum * tenMillennia + coefficient, 0);
}
