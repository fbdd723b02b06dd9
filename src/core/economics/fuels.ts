import type { fuelKinds } from "../study/schema/fuel.ts";

export type FuelKind = (typeof fuelKinds)[number];

/** A fuel as fired: IPCC 2006 defaults, and the typical composition behind its gross heating value. */
export interface FuelData {
  readonly name: string;
  /** Net calorific value, MJ/kg. IPCC 2006 Guidelines, vol. 2, table 1.2. */
  readonly net_MJ_kg: number;
  /** On net calorific value. IPCC 2006 Guidelines, vol. 2, tables 1.4 and 2.2. */
  readonly co2_kg_TJ: number;
  /** CO2 of regrown matter: reported apart, not in the fossil total. */
  readonly biogenic: boolean;
  /** Mass of hydrogen in the dry matter per mass of fuel as fired; typical, from memory. */
  readonly hydrogenShare: number;
  /** Mass of water per mass of fuel as fired; typical, from memory. */
  readonly waterShare: number;
}

/** Fuels with defaults; "other" has none. */
export const fuels: Readonly<Record<Exclude<FuelKind, "other" | "electricity" | "waste-heat">, FuelData>> = {
  "natural-gas": fuel("Natural gas", 48.0, 56_100, 0.24, 0),
  "gas-oil": fuel("Gas oil (diesel)", 43.0, 74_100, 0.132, 0),
  "residual-fuel-oil": fuel("Residual fuel oil", 40.4, 77_400, 0.11, 0.005),
  lpg: fuel("Liquefied petroleum gas", 47.3, 63_100, 0.181, 0),
  "bituminous-coal": fuel("Bituminous coal", 25.8, 94_600, 0.045, 0.08),
  lignite: fuel("Lignite", 11.9, 101_000, 0.022, 0.45),
  wood: { ...fuel("Wood", 15.6, 112_000, 0.051, 0.15), biogenic: true },
};

/** Latent heat of water at 25 °C, MJ/kg, in which gross and net heating value differ. */
const latentHeat_MJ_kg = 2.4417;
/** kg of water from a kg of hydrogen: 18.015/2.016. */
const waterPerHydrogen = 8.937;

/** Gross over net heating value: 1 + latent heat of the water in the flue gas / net heating value. */
export function grossPerNet(fuel: Pick<FuelData, "net_MJ_kg" | "hydrogenShare" | "waterShare">): number {
  const water_kg_kg = waterPerHydrogen * fuel.hydrogenShare + fuel.waterShare;
  return 1 + (latentHeat_MJ_kg * water_kg_kg) / fuel.net_MJ_kg;
}

function fuel(
  name: string,
  net_MJ_kg: number,
  co2_kg_TJ: number,
  hydrogenShare: number,
  waterShare: number,
): FuelData {
  return { name, net_MJ_kg, co2_kg_TJ, biogenic: false, hydrogenShare, waterShare };
}
