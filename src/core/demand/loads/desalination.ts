import type { StudyCalendar } from "../../calendar.ts";
import { ModelError } from "../../errors.ts";
import { hoursPerYear, sum } from "../../series.ts";
import { latentHeat_kJ_kg } from "../../steam/if97.ts";
import type { LoadOf, Network } from "../../study/schema/study.ts";
import { kJ_per_kWh } from "../../units.ts";
import type { WaterOrder } from "../resolved-load.ts";
import { civilDays } from "./civil-days.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, networkOf } from "./load-inputs.ts";

type Desalination = LoadOf<"desalination">;

/** Distillate is counted at a nominal density; at 30 °C it is 0.4 % lighter. */
const distillate_kg_m3 = 1000;
/** 1000 Btu per lb, the usual convention of the performance ratio (El-Dessouky and Ettouney 2002). */
const conventional_kJ_kg = 2326;

/** Water ordered hour by hour and the heat that a m³ takes. @throws ModelError OUT_OF_RANGE, UNKNOWN_ID */
export function desalination(load: Desalination, inputs: LoadInputs): WaterOrder {
  const { months_kWh_m3, how } = waterHeat(load, networkOf(load.id, inputs.network));
  const order_m3_h = waterOrder_m3_h(load, inputs.calendar);
  const [least, most] = [Math.min(...months_kWh_m3), Math.max(...months_kWh_m3)];
  const range = most - least < 0.05 ? figure(most, 1) : `${figure(least, 1)} to ${figure(most, 1)}`;
  const byMonth = most - least < 0.05 ? "" : " by the month";
  return {
    kind: "water",
    id: load.id,
    network: load.network,
    heat_kWh_per_m3: Float64Array.from(
      inputs.calendar.civilMonth,
      (month) => months_kWh_m3[month - 1] ?? Number.NaN,
    ),
    electricity_kWh_per_m3: load.electricity_kWh_per_m3,
    order_m3_h,
    capacity_m3_h: load.capacity_m3_h,
    tank_m3: load.tank_m3,
    products: [{ what: "water made", amount: sum(order_m3_h), unit: "m³" }],
    basis: `${figure(sum(order_m3_h))} m³ of water in the year at ${range} kWh of heat per m³${byMonth} (${how}).`,
  };
}

type HeatFacts = Pick<Desalination, "heatUse" | "seawater" | "topBrine_C">;

/** Heat per m³ of water in each month, and how it follows, for the reader. @throws ModelError OUT_OF_RANGE */
export function waterHeat(load: HeatFacts, network: Network): { months_kWh_m3: number[]; how: string } {
  const { heatUse, seawater } = load;
  if (heatUse.by === "flash-stages") return flashHeat(load, heatUse);
  const { heat_kWh_per_m3, how } = atReference(heatUse, network);
  const months_C = seawater?.months_C;
  const slope_per_K = seawater?.heatChange_per_K ?? 0;
  if (months_C === undefined || slope_per_K === 0)
    return { months_kWh_m3: new Array<number>(12).fill(heat_kWh_per_m3), how };
  const reference_C = seawater?.reference_C ?? months_C.reduce((total, sea_C) => total + sea_C, 0) / 12;
  const months_kWh_m3 = months_C.map((sea_C) => heat_kWh_per_m3 * (1 + slope_per_K * (sea_C - reference_C)));
  const change = `${slope_per_K > 0 ? "+" : "−"}${figure(Math.abs(100 * slope_per_K), 1)} %`;
  return { months_kWh_m3, how: `${how}, ${change} per K of sea water above ${figure(reference_C, 1)} °C` };
}

function atReference(use: Exclude<Desalination["heatUse"], { by: "flash-stages" }>, network: Network) {
  if (use.by === "specific-heat") return { heat_kWh_per_m3: use.heat_kWh_per_m3, how: "as given" };
  const ratio = figure(use.performanceRatio, 1);
  if (use.convention === "2326-kJ-per-kg")
    return {
      heat_kWh_per_m3: perCubicMetre(conventional_kJ_kg / use.performanceRatio),
      how: `performance ratio ${ratio} on 2326 kJ/kg, water at 1000 kg/m³`,
    };
  const steam_C = use.steam_C ?? network.supply_C;
  const latent = latentHeat_kJ_kg(steam_C);
  return {
    heat_kWh_per_m3: perCubicMetre(latent / use.performanceRatio),
    how: `performance ratio ${ratio} on ${figure(latent)} kJ/kg at ${figure(steam_C)} °C, water at 1000 kg/m³`,
  };
}

/**
 * Heat of a kg of distillate by multi-stage flash, kJ: the brine flashes from `topBrine_C` down to
 * `lastStage_C`, R kelvin, and its heater lifts the sea water, warmed by the stages, over one stage's fall
 * and the losses of temperature: latent heat · (R/stages + losses)/R. Equal stages, no brine lost to
 * vapour. After El-Dessouky and Ettouney, *Fundamentals of Salt Water Desalination* (2002), ch. 6, simplified;
 * from memory. @throws ModelError OUT_OF_RANGE where the brine does not cool
 */
export function flashHeat_kJ_kg(
  { stages, losses_K }: { readonly stages: number; readonly losses_K: number },
  topBrine_C: number,
  lastStage_C: number,
): number {
  const range_K = topBrine_C - lastStage_C;
  if (!(range_K > 0)) throw new ModelError("OUT_OF_RANGE", `brine from ${topBrine_C} to ${lastStage_C} °C`);
  return latentHeat_kJ_kg((topBrine_C + lastStage_C) / 2) * (1 / stages + losses_K / range_K);
}

function flashHeat(
  { seawater, topBrine_C }: HeatFacts,
  use: Extract<Desalination["heatUse"], { by: "flash-stages" }>,
) {
  if (seawater === undefined || topBrine_C === undefined)
    throw new ModelError("OUT_OF_RANGE", "flash stages without sea water or top brine");
  const months_kWh_m3 = seawater.months_C.map((sea_C) =>
    perCubicMetre(flashHeat_kJ_kg(use, topBrine_C, sea_C + use.lastStageAboveSea_K)),
  );
  return {
    months_kWh_m3,
    how: `${use.stages} flash stages from ${figure(topBrine_C)} °C, ${figure(use.losses_K, 1)} K lost in each, water at 1000 kg/m³`,
  };
}

/**
 * The order hour by hour: each day of the factory's clock draws exactly order × its month's factor,
 * split over the hours that the day has. The hour missing in spring passes its draw on to the others
 * of its day, the doubled one in autumn takes two shares.
 *
 * @throws ModelError OUT_OF_RANGE where all draw shares are 0
 */
export function waterOrder_m3_h(
  load: Pick<Desalination, "order_m3_per_day" | "orderMonths" | "drawShares">,
  calendar: StudyCalendar,
): Float64Array {
  const shares = load.drawShares ?? new Array<number>(24).fill(1);
  if (!(Math.max(...shares) > 0)) throw new ModelError("OUT_OF_RANGE", "draw shares that are all 0");
  const order_m3_h = new Float64Array(hoursPerYear);
  for (const { month, hours } of civilDays(calendar)) {
    const order_m3 = load.order_m3_per_day * (load.orderMonths?.[month - 1] ?? 1);
    const draws = hours.map((index) => shares[calendar.civilHour[index]]);
    const all = draws.reduce((total, draw) => total + draw, 0);
    // Where the only hour that draws is the one missing in spring, the day draws evenly.
    for (const [place, index] of hours.entries())
      order_m3_h[index] = all > 0 ? (order_m3 * draws[place]) / all : order_m3 / hours.length;
  }
  return order_m3_h;
}

function perCubicMetre(heat_kJ_kg: number): number {
  return (heat_kJ_kg * distillate_kg_m3) / kJ_per_kWh;
}
