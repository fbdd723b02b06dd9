import { dryerBalance } from "../../air/dryer-balance.ts";
import { ModelError } from "../../errors.ts";
import { constantYear, hoursPerYear, sum } from "../../series.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import { kJ_per_kWh } from "../../units.ts";
import type { WeatherYear } from "../../weather.ts";
import type { FixedHeat } from "../resolved-load.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, profileOf } from "./load-inputs.ts";

type Drying = LoadOf<"drying">;
type DryingAir = Extract<Drying["heatUse"], { by: "air" }>;

/** Above this an hour's air takes up so little that no dryer would run on it; own limit, no source. */
export const highestDryingHeat_kWh_kg = 10;

/** Heat to take the water out of a wet product. @throws ModelError SERIES_LENGTH, OUT_OF_RANGE (see checkLoad) */
export function drying(load: Drying, inputs: LoadInputs): FixedHeat {
  const wet_kg_h = profileOf(load.id, inputs.profile);
  const waterShare = waterRemoved_kg_kg(load.moistureIn, load.moistureOut);
  const use = load.heatUse;
  const specific = use.by === "specific-heat" ? asGiven(use) : dryingNeeds(use, inputs.weather);
  const of = (perWater: Float64Array) =>
    wet_kg_h.map((wet, hour) => (wet === 0 ? 0 : wet * waterShare * perWater[hour]!));
  const heat_kW = of(specific.heat_kWh_kg);
  const unfit = heat_kW.findIndex(Number.isNaN);
  if (unfit >= 0)
    throw new ModelError("OUT_OF_RANGE", `hour ${unfit}, whose air is too humid to dry load ${load.id}`);
  const electricity_kW = specific.electricity_kWh_kg === null ? null : of(specific.electricity_kWh_kg);
  const water_kg = sum(wet_kg_h) * waterShare;
  const mean_kWh_kg = water_kg > 0 ? sum(heat_kW) / water_kg : 0;
  const power =
    electricity_kW === null ? "" : ` and ${figure(sum(electricity_kW))} kWh of electricity in the year`;
  return {
    kind: "fixed-heat",
    id: load.id,
    network: load.network,
    heat_kW,
    electricity_kW,
    products: [{ what: "water removed", amount: water_kg / 1000, unit: "t" }],
    basis:
      `${load.product === undefined ? "" : `${load.product}: `}${figure(water_kg)} kg of water removed in the year, ` +
      `${figure(waterShare, 3)} kg per kg of wet product, at ${figure(mean_kWh_kg, 2)} kWh of heat per kg${power} (${howWords(use)}).`,
  };
}

function howWords(use: Drying["heatUse"]): string {
  if (use.by === "specific-heat") return "as given";
  const { recirculatedShare = 0, recoveryEffectiveness = 0 } = use;
  const back = recirculatedShare > 0 ? `, ${figure(100 * recirculatedShare)} % of the air brought back` : "";
  const warmed =
    recoveryEffectiveness > 0
      ? `, warmed by the exhaust with an effectiveness of ${figure(recoveryEffectiveness, 2)}`
      : "";
  return (
    `outside air heated to ${figure(use.air_C)} °C${back}${warmed}, leaving at ${figure(use.exhaustRelativeHumidity * 100)} % relative humidity, ` +
    `${figure(use.heatLossShare * 100)} % lost`
  );
}

/** Water removed per kg of wet product, both moistures wet basis. @throws ModelError OUT_OF_RANGE */
export function waterRemoved_kg_kg(moistureIn: number, moistureOut: number): number {
  if (!(moistureIn >= moistureOut && moistureOut >= 0 && moistureIn <= 1 && moistureOut < 1))
    throw new ModelError("OUT_OF_RANGE", `drying from ${moistureIn} to ${moistureOut} wet basis`);
  return (moistureIn - moistureOut) / (1 - moistureOut);
}

/** What a kg of water takes in each hour. */
export interface DryingNeeds {
  /** 8760 values; NaN where the hour's air cannot take up water for highestDryingHeat_kWh_kg or less. */
  readonly heat_kWh_kg: Float64Array;
  /** Null where none is given. */
  readonly electricity_kWh_kg: Float64Array | null;
}

function asGiven(use: Extract<Drying["heatUse"], { by: "specific-heat" }>): DryingNeeds {
  const { heat_kWh_per_kgWater, electricity_kWh_per_kgWater } = use;
  return {
    heat_kWh_kg: constantYear(heat_kWh_per_kgWater),
    electricity_kWh_kg:
      electricity_kWh_per_kgWater === undefined ? null : constantYear(electricity_kWh_per_kgWater),
  };
}

/**
 * Heat and fan power per kg of water of a dryer with air, hour by hour of outside air, by dryerBalance;
 * the loss share is on top of the heat into the air. Heating of the product is left out.
 */
export function dryingNeeds(use: DryingAir, weather: WeatherYear): DryingNeeds {
  const { air_C, exhaustRelativeHumidity, recirculatedShare = 0, recoveryEffectiveness = 0, fan } = use;
  const air = { air_C, exhaustRelativeHumidity, recirculatedShare, recoveryEffectiveness };
  const heat_kWh_kg = new Float64Array(hoursPerYear).fill(Number.NaN);
  const electricity_kWh_kg = fan === undefined ? null : new Float64Array(hoursPerYear).fill(Number.NaN);
  for (let hour = 0; hour < hoursPerYear; hour += 1) {
    const outside = {
      temperature_C: weather.ambient_C[hour]!,
      relativeHumidity: weather.humidity_share[hour]!,
    };
    const balance = dryerBalance(air, outside, weather.pressure_Pa[hour]!);
    if (balance === null) continue;
    const heat = (balance.heat_kJ * (1 + use.heatLossShare)) / kJ_per_kWh;
    if (!(heat <= highestDryingHeat_kWh_kg)) continue;
    heat_kWh_kg[hour] = heat;
    if (electricity_kWh_kg !== null && fan !== undefined)
      electricity_kWh_kg[hour] = (balance.volume_m3 * fan.pressure_Pa) / fan.efficiency / 3.6e6;
  }
  return { heat_kWh_kg, electricity_kWh_kg };
}
