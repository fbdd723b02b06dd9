import { dryerExhaust } from "../../air/dryer-exhaust.ts";
import { humidityRatio, moistAirEnthalpy_kJ_kg } from "../../air/psychrometrics.ts";
import { ModelError } from "../../errors.ts";
import { hoursPerYear, sum } from "../../series.ts";
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
  const specific_kWh_kg =
    use.by === "specific-heat"
      ? new Float64Array(hoursPerYear).fill(use.heat_kWh_per_kgWater)
      : dryingHeat_kWh_kg(use, inputs.weather);
  const heat_kW = wet_kg_h.map((wet, hour) => (wet === 0 ? 0 : wet * waterShare * specific_kWh_kg[hour]));
  const unfit = heat_kW.findIndex(Number.isNaN);
  if (unfit >= 0)
    throw new ModelError("OUT_OF_RANGE", `hour ${unfit}, whose air is too humid to dry load ${load.id}`);
  const water_kg = sum(wet_kg_h) * waterShare;
  const mean_kWh_kg = water_kg > 0 ? sum(heat_kW) / water_kg : 0;
  const how =
    use.by === "specific-heat"
      ? "as given"
      : `outside air heated to ${figure(use.air_C)} °C, leaving at ${figure(use.exhaustRelativeHumidity * 100)} % relative humidity, ` +
        `${figure(use.heatLossShare * 100)} % lost`;
  return {
    kind: "fixed-heat",
    id: load.id,
    network: load.network,
    heat_kW,
    electricity_kW: null,
    products: [{ what: "water removed", amount: water_kg / 1000, unit: "t" }],
    basis:
      `${figure(water_kg)} kg of water removed in the year, ${figure(waterShare, 3)} kg per kg of wet product, ` +
      `at ${figure(mean_kWh_kg, 2)} kWh of heat per kg (${how}).`,
  };
}

/** Water removed per kg of wet product, both moistures wet basis. @throws ModelError OUT_OF_RANGE */
export function waterRemoved_kg_kg(moistureIn: number, moistureOut: number): number {
  if (!(moistureIn >= moistureOut && moistureOut >= 0 && moistureIn <= 1 && moistureOut < 1))
    throw new ModelError("OUT_OF_RANGE", `drying from ${moistureIn} to ${moistureOut} wet basis`);
  return (moistureIn - moistureOut) / (1 - moistureOut);
}

/**
 * Heat per kg of water of a dryer with once-through air, hour by hour: outside air is heated and takes
 * up water without further heat until it reaches the exhaust's relative humidity. Outside air that is
 * warmer than the drying air needs none. Product heating and air brought back are left out.
 *
 * @returns 8760 values; NaN where the hour's air cannot take up water, or so little that the heat
 * passes highestDryingHeat_kWh_kg
 */
export function dryingHeat_kWh_kg(use: DryingAir, weather: WeatherYear): Float64Array {
  return weather.ambient_C.map((ambient_C, hour) => {
    const pressure_Pa = weather.pressure_Pa[hour];
    const ratio = humidityRatio(ambient_C, Math.min(1, weather.humidity_share[hour]), pressure_Pa);
    const air = { temperature_C: Math.max(use.air_C, ambient_C), humidityRatio: ratio };
    const takenUp = waterTakenUp(air, use.exhaustRelativeHumidity, pressure_Pa);
    const heating =
      moistAirEnthalpy_kJ_kg(air.temperature_C, ratio) - moistAirEnthalpy_kJ_kg(ambient_C, ratio);
    const heat_kWh_kg = (heating * (1 + use.heatLossShare)) / takenUp / kJ_per_kWh;
    return heat_kWh_kg <= highestDryingHeat_kWh_kg ? heat_kWh_kg : Number.NaN;
  });
}

/** kg per kg of dry air; NaN where the air is already too wet. */
function waterTakenUp(
  air: { readonly temperature_C: number; readonly humidityRatio: number },
  exhaustRelativeHumidity: number,
  pressure_Pa: number,
): number {
  try {
    return dryerExhaust(air, exhaustRelativeHumidity, pressure_Pa).humidityRatio - air.humidityRatio;
  } catch (error) {
    if (error instanceof ModelError) return Number.NaN;
    throw error;
  }
}
