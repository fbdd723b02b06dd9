import { ModelError } from "../errors.ts";

/** IAPWS R7-97(2012), table 34, from memory; tables 35 and 36 hold it (tests/core/steam). */
const n = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5, -0.32325550322333e7,
  0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
] as const;

/**
 * Pressure at which water of a temperature boils, IAPWS R7-97(2012) eq. 30, 273.15 to 647.096 K.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function saturationPressureAt_MPa(temperature_K: number): number {
  if (!(temperature_K >= 273.15 && temperature_K <= 647.096))
    throw new ModelError("OUT_OF_RANGE", `saturation at ${temperature_K} K`);
  const theta = temperature_K + n[8] / (temperature_K - n[9]);
  const a = theta * theta + n[0] * theta + n[1];
  const b = n[2] * theta * theta + n[3] * theta + n[4];
  const c = n[5] * theta * theta + n[6] * theta + n[7];
  return ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/**
 * Temperature at which water under a pressure boils, IAPWS R7-97(2012) eq. 31, 611.213 Pa to 22.064 MPa.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function saturationTemperatureAt_K(pressure_MPa: number): number {
  if (!(pressure_MPa >= 611.2126e-6 && pressure_MPa <= 22.064))
    throw new ModelError("OUT_OF_RANGE", `saturation at ${pressure_MPa} MPa`);
  const beta = pressure_MPa ** 0.25;
  const e = beta * beta + n[2] * beta + n[5];
  const f = n[0] * beta * beta + n[3] * beta + n[6];
  const g = n[1] * beta * beta + n[4] * beta + n[7];
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  return (n[9] + d - Math.sqrt((n[9] + d) ** 2 - 4 * (n[8] + n[9] * d))) / 2;
}
