import { constantYear, hoursPerYear, sum } from "../../series.ts";
import { liquidEnthalpy_kJ_kg, waterDensity_kg_m3 } from "../../steam/if97.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import { kJ_per_kWh } from "../../units.ts";
import type { WaterOrder } from "../resolved-load.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, profileOf } from "./load-inputs.ts";

type HotWaterLoad = LoadOf<"hot-water">;
const atmosphere_bar = 1.01325;

/**
 * Hot water as an order from a tank that is heated when it suits: heat for each m³, drawn hour by hour.
 *
 * A m³ is one as drawn in the month whose cold water is the warmest; colder months and the losses of tank
 * and pipes count as more of them, so that heat is exact and the tank holds no more than in that month.
 * The losses are those of a full tank in every hour, whatever it holds.
 *
 * @throws ModelError SERIES_LENGTH, OUT_OF_RANGE
 */
export function hotWater(load: HotWaterLoad, inputs: LoadInputs): WaterOrder {
  const draw_m3_h = profileOf(load.id, inputs.profile);
  const months_kWh_m3 = monthlyHeat_kWh_m3(load);
  const heat_kWh_per_m3 = Math.min(...months_kWh_m3);
  const losses_kW = lossesOf(load);
  const { civilMonth } = inputs.calendar;
  const order_m3_h = draw_m3_h.map(
    (draw, hour) => (draw * months_kWh_m3[civilMonth[hour] - 1]! + losses_kW) / heat_kWh_per_m3,
  );
  const drawn_m3 = sum(draw_m3_h);
  const losses_kWh = losses_kW * hoursPerYear;
  return {
    kind: "water",
    id: load.id,
    network: load.network,
    heat_kWh_per_m3: constantYear(heat_kWh_per_m3),
    electricity_kWh_per_m3: 0,
    order_m3_h,
    capacity_m3_h: load.heater_kW / heat_kWh_per_m3,
    tank_m3: load.tank_m3,
    products: [{ what: "hot water", amount: drawn_m3, unit: "m³" }],
    basis:
      `${figure(drawn_m3)} m³ of hot water in the year from ${coldWords(months_kWh_m3, load)} to ${figure(load.use_C)} °C, ` +
      `${figure(sum(order_m3_h) * heat_kWh_per_m3)} kWh` +
      `${losses_kWh > 0 ? `, of it ${figure(losses_kWh)} kWh lost by tank and pipes` : ""}; tank of ${figure(load.tank_m3, 1)} m³.`,
  };
}

/** Heat of a m³ drawn in each month, kWh; the volume counts as metered cold. */
export function monthlyHeat_kWh_m3({
  use_C,
  coldWater_C,
  coldWaterMonths_C,
}: Pick<HotWaterLoad, "use_C" | "coldWater_C" | "coldWaterMonths_C">): number[] {
  const hot_kJ_kg = liquidEnthalpy_kJ_kg(use_C, atmosphere_bar);
  return (coldWaterMonths_C ?? new Array<number>(12).fill(coldWater_C)).map((cold_C) => {
    const heat_kJ_kg = hot_kJ_kg - liquidEnthalpy_kJ_kg(cold_C, atmosphere_bar);
    return (waterDensity_kg_m3(cold_C) * heat_kJ_kg) / kJ_per_kWh;
  });
}

/** What tank and pipes lose in every hour. */
export function lossesOf({ standingLoss_kW = 0, recirculation_kW = 0 }: HotWaterLoad): number {
  return standingLoss_kW + recirculation_kW;
}

function coldWords(months: readonly number[], { coldWater_C, coldWaterMonths_C }: HotWaterLoad): string {
  if (coldWaterMonths_C === undefined || months.length === 0) return `${figure(coldWater_C, 1)}`;
  return `${figure(Math.min(...coldWaterMonths_C), 1)} to ${figure(Math.max(...coldWaterMonths_C), 1)}`;
}
