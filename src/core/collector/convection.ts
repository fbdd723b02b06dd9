import { kelvinAtZero_C } from "../units.ts";
import { airAt, airPrandtl, rayleigh } from "./receiver-air.ts";

/** Nusselt number as a function of Rayleigh or Reynolds number, for a fluid of one Prandtl number. */
export type Nusselt = (number: number) => number;

/** Horizontal cylinder in still air, Ra to 1e12: Churchill & Chu 1975 (Incropera eq. 9.34). */
export function churchillChuCylinder(Pr: number): Nusselt {
  const factor = 0.387 / (1 + (0.559 / Pr) ** (9 / 16)) ** (8 / 27);
  return (Ra) => square(0.6 + factor * Math.sqrt(Math.cbrt(Ra)));
}

/** Vertical plate in still air, all Ra: Churchill & Chu 1975 (Incropera eq. 9.26). */
export function churchillChuPlate(Pr: number): Nusselt {
  const factor = 0.387 / (1 + (0.492 / Pr) ** (9 / 16)) ** (8 / 27);
  return (Ra) => square(0.825 + factor * Math.sqrt(Math.cbrt(Ra)));
}

/** Cylinder in cross flow, Re·Pr > 0.2: Churchill & Bernstein 1977 (Incropera eq. 7.54). */
export function churchillBernstein(Pr: number): Nusselt {
  const factor = (0.62 * Math.cbrt(Pr)) / (1 + (0.4 / Pr) ** (2 / 3)) ** 0.25;
  return (Re) => {
    const root = Math.sqrt(Re / 282_000);
    return 0.3 + factor * Math.sqrt(Re) * (1 + root * Math.sqrt(Math.sqrt(root))) ** 0.8;
  };
}

/** Mean along a flat plate, transition at Re 500 000 (Incropera eq. 7.30 and 7.38). */
export function flatPlateFlow(Pr: number): Nusselt {
  const factor = Math.cbrt(Pr);
  return (Re) => factor * (Re < 500_000 ? 0.664 * Math.sqrt(Re) : 0.037 * Re ** 0.8 - 871);
}

/** Convection from a receiver's surface to the air, W/(m² of receiver·K), properties at the film temperature. */
export type Convection = (surface_C: number, ambient_C: number, wind_m_s: number) => number;

/** Still air and wind join as (Nu₁³ + Nu₂³)^⅓ (Incropera sec. 9.9). */
export function tubeConvection(diameter_m: number): Convection {
  return joined(diameter_m, churchillChuCylinder, churchillBernstein);
}

/** As an upright plate in still air, between one that faces up and one that faces down; wind along it. */
export function plateConvection(width_m: number): Convection {
  return joined(width_m, churchillChuPlate, flatPlateFlow);
}

function joined(
  size_m: number,
  stillOf: (Pr: number) => Nusselt,
  flowOf: (Pr: number) => Nusselt,
): Convection {
  const still = stillOf(airPrandtl);
  const flow = flowOf(airPrandtl);
  return (surface_C, ambient_C, wind_m_s) => {
    const air = airAt((surface_C + ambient_C) / 2);
    const free = still(rayleigh(air, surface_C - ambient_C, size_m));
    const Re = (wind_m_s * size_m) / air.viscosity_m2_s;
    const forced = Re * airPrandtl > 0.2 ? flow(Re) : 0;
    const both = Math.cbrt(free * free * free + forced * forced * forced);
    return (both * air.conductivity_W_mK) / size_m;
  };
}

function square(x: number): number {
  return x * x;
}

/**
 * Open cavity that faces sideways, as deep as wide, per m² of its opening (inner walls: 5 times the opening).
 * Still air: Nu = 0.088·Gr^⅓·(Tw/Ta)^0.18·(d/L)^(1.12 − 0.98·d/L) with d = L, Stine & McDonald 1989; wind:
 * 0.1967·v^1.849 W/(m²·K) of inner wall, side on, Ma, SAND92-7293 (1993), added; both from memory. Facing down
 * it loses less.
 */
export function cavityConvection(): Convection {
  const walls = 5;
  return (surface_C, ambient_C, wind_m_s) => {
    const air = airAt((surface_C + ambient_C) / 2);
    // Gr^⅓ is in proportion to the size, so the size cancels.
    const grashof = rayleigh(air, surface_C - ambient_C, 1) / airPrandtl;
    const warmth = ((surface_C + kelvinAtZero_C) / (ambient_C + kelvinAtZero_C)) ** 0.18;
    const still = 0.088 * Math.cbrt(grashof) * warmth * air.conductivity_W_mK;
    return walls * (still + 0.1967 * wind_m_s ** 1.849);
  };
}
