import { ModelError } from "../errors.ts";
import { waterCp_kJ_kgK, waterDensity_kg_m3 } from "../steam/if97.ts";
import type { Store } from "../study/schema/study.ts";

export type MediumName = Store["medium"];

/** A storage medium. Its functions hold from `least_C` to `most_C`. */
export interface Medium {
  readonly least_C: number;
  readonly most_C: number;
  /** Heat capacity of a cubic metre that the medium fills, kJ/(m³·K). */
  readonly capacity_kJ_m3K: (temperature_C: number) => number;
}

const water = (most_C: number): Medium => ({
  least_C: 0,
  most_C,
  capacity_kJ_m3K: (t) => waterDensity_kg_m3(t) * waterCp_kJ_kgK(t),
});

/**
 * Diphenyl / diphenyl-oxide eutectic, liquid, from its maker's bulletin (density seen in print, heat
 * capacity from memory, sure). It freezes at 12 °C.
 */
export const thermalOil = {
  density_kg_m3: (t: number) => 1083.25 - 0.90797 * t + 7.8116e-4 * t ** 2 - 2.367e-6 * t ** 3,
  cp_kJ_kgK: (t: number) =>
    1.498 + 2.414e-3 * t + 5.9591e-6 * t ** 2 - 2.9879e-8 * t ** 3 + 4.4172e-11 * t ** 4,
  /** From 0 °C, the integral of the heat capacity. */
  enthalpy_kJ_kg: (t: number) =>
    t * (1.498 + t * (2.414e-3 / 2 + t * (5.9591e-6 / 3 + t * (-2.9879e-8 / 4 + (t * 4.4172e-11) / 5)))),
};

/** 60 % sodium, 40 % potassium nitrate by mass, 260 to 600 °C: Zavoico, SAND2001-2100 (2001), p. 23. */
export const solarSalt = {
  density_kg_m3: (t: number) => 2090 - 0.636 * t,
  cp_kJ_kgK: (t: number) => (1443 + 0.172 * t) / 1000,
};

/** Bed of gravel: Duffie and Beckman ch. 8 (from memory, fairly sure); voids from granite of 2630 kg/m³ (Incropera and DeWitt, table A.3). */
export const rockBed = { bulk_kg_m3: 1600, cp_kJ_kgK: 0.88, voidShare: 1 - 1600 / 2630 };

const oilCapacity = (t: number) => thermalOil.density_kg_m3(t) * thermalOil.cp_kJ_kgK(t);

export const media: Readonly<Record<MediumName, Medium>> = {
  water: water(100),
  "pressurised-water": water(350),
  "chilled-water": water(30),
  "thermal-oil": { least_C: 12, most_C: 400, capacity_kJ_m3K: oilCapacity },
  "oil-rock": {
    least_C: 12,
    most_C: 400,
    capacity_kJ_m3K: (t) => rockBed.bulk_kg_m3 * rockBed.cp_kJ_kgK + rockBed.voidShare * oilCapacity(t),
  },
  "molten-salt": {
    least_C: 260,
    most_C: 600,
    capacity_kJ_m3K: (t) => solarSalt.density_kg_m3(t) * solarSalt.cp_kJ_kgK(t),
  },
};

/** Heat capacity of a cubic metre of tank full of a medium, kJ/(m³·K). @throws ModelError OUT_OF_RANGE */
export function volumetricCapacity_kJ_m3K(name: MediumName, temperature_C: number): number {
  const medium = media[name];
  if (!(temperature_C >= medium.least_C && temperature_C <= medium.most_C))
    throw new ModelError(
      "OUT_OF_RANGE",
      `${name} at ${temperature_C} °C; ${medium.least_C} to ${medium.most_C} °C is covered`,
    );
  return medium.capacity_kJ_m3K(temperature_C);
}
