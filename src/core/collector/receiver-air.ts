import { kelvinAtZero_C } from "../units.ts";

/** Gravity, m/s². */
const gravity = 9.81;

/** Prandtl number of air, 0.68 to 0.71 from 0 to 600 °C. */
export const airPrandtl = 0.7;

/** What convection needs to know of air of one film temperature at 1 atm. */
export interface Air {
  readonly conductivity_W_mK: number;
  readonly viscosity_m2_s: number;
  readonly perKelvin: number;
}

/**
 * Air by Sutherland's law (viscosity 1.716e-5 Pa·s at 273.15 K, S 110.4 K), conductivity in its Sutherland form
 * (0.0241 W/(m·K), S 194 K; White, Viscous Fluid Flow, from memory) and the ideal gas.
 */
export function airAt(film_C: number): Air {
  const T = film_C + kelvinAtZero_C;
  const ratio = T / kelvinAtZero_C;
  const power = ratio * Math.sqrt(ratio);
  const viscosity_Pa_s = (1.716e-5 * power * (kelvinAtZero_C + 110.4)) / (T + 110.4);
  return {
    conductivity_W_mK: (0.0241 * power * (kelvinAtZero_C + 194)) / (T + 194),
    viscosity_m2_s: (viscosity_Pa_s * 287.06 * T) / 101_325,
    perKelvin: 1 / T,
  };
}

/** Rayleigh number of a body of one size, surface against air. */
export function rayleigh(air: Air, excess_K: number, size_m: number): number {
  return (
    (gravity * air.perKelvin * Math.abs(excess_K) * (size_m * size_m * size_m) * airPrandtl) /
    (air.viscosity_m2_s * air.viscosity_m2_s)
  );
}
