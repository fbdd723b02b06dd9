import { hoursPerYear, sum } from "../../series.ts";
import { thermalOil as eutectic } from "../../storage/media.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import { kJ_per_kWh } from "../../units.ts";
import type { FixedHeat } from "../resolved-load.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, profileOf } from "./load-inputs.ts";

type OilLoad = LoadOf<"thermal-oil">;

/** Heat that a flow of thermal oil gives between two temperatures. @throws ModelError SERIES_LENGTH */
export function thermalOil(load: OilLoad, inputs: LoadInputs): FixedHeat {
  const kg_per_unit = load.flowIs === "kg/h" ? 1 : density_kg_m3(load);
  const flow_kg_h = profileOf(load.id, inputs.profile).map((flow) => flow * kg_per_unit);
  const heat_kJ_kg = oilHeat_kJ_kg(load);
  return {
    kind: "fixed-heat",
    id: load.id,
    network: load.network,
    heat_kW: flow_kg_h.map((flow) => (flow * heat_kJ_kg) / kJ_per_kWh),
    electricity_kW: null,
    basis:
      `${figure(sum(flow_kg_h) / hoursPerYear)} kg/h of thermal oil on average from ${figure(load.in_C)} to ${figure(load.out_C)} °C, ` +
      `${figure(heat_kJ_kg, 1)} kJ/kg (${load.flowIs === "m3/h" ? `${figure(kg_per_unit)} kg/m³ at the meter; ` : ""}${load.oil.by === "eutectic" ? "diphenyl and diphenyl oxide" : "specific heat as given"}).`,
  };
}

/** Heat of a kg of oil between the load's temperatures, by the integral of its specific heat. */
export function oilHeat_kJ_kg({ in_C, out_C, oil }: Pick<OilLoad, "in_C" | "out_C" | "oil">): number {
  if (oil.by === "data-sheet") return oil.heatCapacity_kJ_kgK * (in_C - out_C);
  return eutectic.enthalpy_kJ_kg(in_C) - eutectic.enthalpy_kJ_kg(out_C);
}

/** Density at the meter; NaN where a data sheet's is not given. */
function density_kg_m3({ oil, meter_C, out_C }: OilLoad): number {
  if (oil.by === "data-sheet") return oil.density_kg_m3 ?? Number.NaN;
  return eutectic.density_kg_m3(meter_C ?? out_C);
}
