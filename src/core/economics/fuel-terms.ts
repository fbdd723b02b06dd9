import { ModelError } from "../errors.ts";
import type { Problem } from "../problem.ts";
import type { Fuel } from "../study/schema/study.ts";
import { MJ_per_kWh } from "../units.ts";
import { type FuelData, fuels, grossPerNet } from "./fuels.ts";

export const fuelProblems = {
  FUEL_EFFICIENCY_ABOVE_ONE:
    "An efficiency on the gross heating value is above 1, which no boiler can reach.",
} as const;

/** A fuel and its boiler on the net heating value, whatever the user's basis. */
export interface FuelTerms {
  /** First year, currency per kWh of fuel, net. */
  readonly pricePerKWhNet: number;
  /** Heat per fuel, net; a condensing boiler lies above 1. */
  readonly efficiencyNet: number;
  /** First year, currency per kWh of heat; the same on either basis. */
  readonly heatPrice_per_kWh: number;
  /** Fossil CO2 per kWh of fuel, net; 0 for a biogenic fuel, null where not known. */
  readonly co2_kg_per_kWhNet: number | null;
  /** Biogenic CO2 per kWh of fuel, net, reported apart. */
  readonly biogenicCo2_kg_per_kWhNet: number;
  readonly biogenic: boolean;
  /** Where the figures come from and what was converted, in sentences. */
  readonly sources: readonly string[];
}

/**
 * Price, efficiency and CO2 of a backup's fuel on the net heating value.
 *
 * Price and efficiency are both on the basis that `heatingValue` names; 1 kWh net of the fuel is
 * `grossPerNet` kWh gross. A fuel of kind "other" has no known ratio: its kWh stay as given, and
 * that is said. A CO2 factor that the user gives counts per kWh net.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function fuelTerms(fuel: Fuel, efficiency: number): FuelTerms {
  if (!(efficiency > 0)) throw new ModelError("OUT_OF_RANGE", `an efficiency of ${efficiency}`);
  const data = isHeatOfCombustion(fuel.kind) ? fuels[fuel.kind] : null;
  const ratio = fuel.heatingValue === "gross" && data !== null ? grossPerNet(data) : 1;
  const co2 = co2Terms(fuel, data);
  return {
    pricePerKWhNet: fuel.price_per_kWh * ratio,
    efficiencyNet: efficiency * ratio,
    heatPrice_per_kWh: fuel.price_per_kWh / efficiency,
    ...co2,
    biogenic: data?.biogenic ?? false,
    sources: [...conversionSentence(fuel, data), ...co2Sentences(fuel, data)],
  };
}

/** Faults of a backup's fuel that its schema cannot see. */
export function checkFuel(fuel: Fuel, efficiency: number, path: string): Problem[] {
  if (fuel.heatingValue === "net" || efficiency <= 1 || fuel.kind === "electricity") return [];
  return [
    {
      code: "FUEL_EFFICIENCY_ABOVE_ONE" satisfies keyof typeof fuelProblems,
      message:
        `The efficiency of ${efficiency} is said to be on the gross heating value, where it can be 1 at most; ` +
        "on the net heating value a condensing boiler may lie above 1.",
      place: { path: `${path}/efficiency` },
    },
  ];
}

type BurntFuel = keyof typeof fuels;

/** False for electricity, waste heat and fuels of the user's own, which have no data here. */
function isHeatOfCombustion(kind: Fuel["kind"]): kind is BurntFuel {
  return Object.hasOwn(fuels, kind);
}

function co2Terms(
  fuel: Fuel,
  data: FuelData | null,
): Pick<FuelTerms, "co2_kg_per_kWhNet" | "biogenicCo2_kg_per_kWhNet"> {
  const byDefault = data === null ? null : (data.co2_kg_TJ * MJ_per_kWh) / 1e6;
  const factor = fuel.co2_kg_per_kWh ?? byDefault;
  if (data?.biogenic) return { co2_kg_per_kWhNet: 0, biogenicCo2_kg_per_kWhNet: factor ?? 0 };
  return { co2_kg_per_kWhNet: factor, biogenicCo2_kg_per_kWhNet: 0 };
}

function conversionSentence(fuel: Fuel, data: FuelData | null): string[] {
  if (fuel.heatingValue === "net") return [];
  if (data === null)
    return [
      "This fuel's ratio of gross to net heating value is not known: its kWh are on the gross heating value, " +
        "and a CO2 factor given for it counts per such kWh.",
    ];
  return [
    `Price and efficiency of ${data.name.toLowerCase()} were converted from gross to net heating value with ` +
      `${grossPerNet(data).toFixed(3)} kWh gross per kWh net, from a typical content of hydrogen and water.`,
  ];
}

function co2Sentences(fuel: Fuel, data: FuelData | null): string[] {
  const given = fuel.co2_kg_per_kWh !== undefined;
  if (data === null && !given)
    return ["No CO2 factor is given for this fuel: its CO2 is not known and is left out of the totals."];
  const origin = given
    ? "CO2 per kWh of fuel is the study's own value."
    : `CO2 of ${data?.name.toLowerCase()}: ${data?.co2_kg_TJ} kg/TJ on net heating value, ` +
      "IPCC 2006 Guidelines, vol. 2, table 2.2.";
  if (!data?.biogenic) return [origin];
  return [origin, "It is biogenic: reported apart, and 0 in the total of fossil CO2."];
}
