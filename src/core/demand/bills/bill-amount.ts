import type { BillsProfile, BillUnit } from "../../study/schema/profile.ts";
import { fuelMeterFault, heatPerFuel_kWh } from "../fuel-metered.ts";

/** What a load's profile is a rate of; see LoadProfile. */
export type BilledQuantity = "power" | "mass-flow" | "volume-flow";

/** Unit of a rate times an hour. */
export const amountUnit: Readonly<Record<BilledQuantity, string>> = {
  power: "kWh",
  "mass-flow": "kg",
  "volume-flow": "m³",
};

/** kWh of energy, kg or m³ in one of a unit. 1 kWh = 3.6 MJ (SI). */
const direct: Readonly<Record<BilledQuantity, Partial<Record<BillUnit, number>>>> = {
  power: { kWh: 1, MWh: 1000, MJ: 1 / 3.6, GJ: 1000 / 3.6 },
  "mass-flow": { kg: 1, t: 1000 },
  "volume-flow": { m3: 1, L: 0.001 },
};

/** Units of fuel to which a heating value belongs, in one of the unit billed. */
const ofFuel: Partial<Record<BillUnit, number>> = {
  kWh: 1,
  MWh: 1000,
  MJ: 1 / 3.6,
  GJ: 1000 / 3.6,
  m3: 1,
  Nm3: 1,
  L: 1,
  kg: 1,
  t: 1000,
};

/** What one of the unit billed comes to: kWh of heat, kg or m³ of the load's own; null where it cannot. */
export function amountPerUnit(
  { unit, fuel }: Pick<BillsProfile, "unit" | "fuel">,
  quantity: BilledQuantity,
): number | null {
  if (fuel === undefined) return direct[quantity][unit] ?? null;
  const units = ofFuel[unit];
  return quantity !== "power" || units === undefined ? null : units * heatPerFuel_kWh(fuel);
}

/** Why the bills' unit and fuel do not give the load's quantity; null where they do. */
export function unitFault(
  { unit, fuel }: Pick<BillsProfile, "unit" | "fuel">,
  quantity: BilledQuantity,
): { readonly at: "unit" | "fuel"; readonly sentence: string } | null {
  const isEnergy = ["kWh", "MWh", "MJ", "GJ"].includes(unit);
  if (fuel === undefined) {
    if (direct[quantity][unit] !== undefined) return null;
    const allowed = Object.keys(direct[quantity]).join(", ");
    const hint =
      quantity === "power"
        ? ", or the heating value and boiler efficiency of a fuel billed in this unit"
        : "";
    return {
      at: "unit",
      sentence: `The bills are in ${unit}, and the load is ${named[quantity]}; ${allowed} is allowed${hint}.`,
    };
  }
  if (quantity !== "power")
    return {
      at: "fuel",
      sentence: `Fuel is turned into heat, and the load is ${named[quantity]}; leave the fuel out, or bill a load in kW.`,
    };
  const efficiency = fuelMeterFault(fuel);
  if (efficiency !== null) return { at: "fuel", sentence: efficiency };
  if (isEnergy && fuel.kWh_per_unit !== 1)
    return {
      at: "fuel",
      sentence: `The bills count energy (${unit}), and a heating value of ${fuel.kWh_per_unit} kWh is given; 1 is allowed there.`,
    };
  if (fuel.norm_per_metered !== undefined && unit !== "m3")
    return {
      at: "fuel",
      sentence: `A norm volume per metered m³ is given, and the bills are in ${unit}; it is for m³ as metered.`,
    };
  return null;
}

const named: Readonly<Record<BilledQuantity, string>> = {
  power: "a heat in kW",
  "mass-flow": "a mass in kg/h",
  "volume-flow": "a volume in m³/h",
};
