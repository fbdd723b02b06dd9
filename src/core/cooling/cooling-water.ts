import { humidityRatio } from "../air/psychrometrics.ts";
import { wetBulb_C } from "../air/wet-bulb.ts";
import { monthLength_days } from "../calendar.ts";
import { hoursPerYear } from "../series.ts";
import type { CoolingWater } from "../study/schema/chiller-temperatures.ts";
import type { WeatherYear } from "../weather.ts";

type Air = Pick<WeatherYear, "ambient_C" | "humidity_share" | "pressure_Pa">;

/**
 * Cooling water as it enters the chiller, °C by hour: wet bulb or air temperature plus the approach, never
 * below what the control holds; or the value of the hour's month (standard time). The approach is taken as
 * constant, which favours the chiller in hot hours at full load and harms it at part load.
 */
export function enteringWater_C(water: CoolingWater, air: Air): Float64Array {
  if (water.from === "by-month") return byMonth(water.months_C);
  const { approach_K, least_C } = water;
  if (water.from === "dry-cooler")
    return air.ambient_C.map((ambient_C) => Math.max(least_C, ambient_C + approach_K));
  return air.ambient_C.map((ambient_C, t) => {
    const pressure_Pa = air.pressure_Pa[t];
    const ratio = humidityRatio(ambient_C, Math.min(1, air.humidity_share[t]), pressure_Pa);
    return Math.max(least_C, wetBulb_C(ambient_C, ratio, pressure_Pa) + approach_K);
  });
}

function byMonth(months_C: readonly number[]): Float64Array {
  const year_C = new Float64Array(hoursPerYear);
  let t = 0;
  months_C.forEach((value_C, month) => {
    const end = t + monthLength_days(month + 1) * 24;
    year_C.fill(value_C, t, end);
    t = end;
  });
  return year_C;
}

/** The lowest temperature at which cooling water can enter, °C. */
export function leastEntering_C(water: CoolingWater): number {
  return water.from === "by-month" ? Math.min(...water.months_C) : water.least_C;
}

/** Heat of evaporation of water at about 30 °C, kJ/kg: IAPWS-IF97. */
const evaporation_kJ_kg = 2430;

/**
 * Make-up water of a wet tower for each kWh of heat rejected, m³: evaporation of all of it, and blow-down
 * that keeps dissolved matter at so many times the make-up's (make-up = evaporation · n/(n − 1)). Drift is
 * not in it.
 */
export function towerMakeUp_m3_per_kWh(cyclesOfConcentration: number): number {
  const evaporated_m3 = 3600 / evaporation_kJ_kg / 1000;
  return (evaporated_m3 * cyclesOfConcentration) / (cyclesOfConcentration - 1);
}
