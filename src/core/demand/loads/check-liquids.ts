import type { Problem } from "../../problem.ts";
import { sum } from "../../series.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import { figure } from "./figure.ts";
import { lossesOf, monthlyHeat_kWh_m3 } from "./hot-water.ts";

/** What loads of hot water and of thermal oil must keep to. */
export const liquidLoadProblems = {
  LOAD_COLD_WATER: "hot water must be drawn hotter than the cold water that it is made from",
  LOAD_HOT_WATER_HEATER:
    "the heat exchanger of a hot water tank must keep up with the year's draw and losses",
  LOAD_OIL_DENSITY: "a flow of oil in m³/h needs the density at the meter",
  LOAD_OIL_TEMPERATURES: "thermal oil must come back cooler than it goes out, and stay below what it bears",
} as const;

/** Above it the eutectic decomposes in use; its film at the wall is hotter than its bulk. */
export const eutecticLimit_C = 400;

type Code = keyof typeof liquidLoadProblems;

export function hotWaterProblems(
  load: LoadOf<"hot-water">,
  draw_m3_h: Float64Array | null,
  path: string,
): Problem[] {
  const problem = (code: Code, column: string, message: string): Problem => ({
    code,
    message,
    place: { path: `${path}/${column}` },
  });
  const cold = load.coldWaterMonths_C ?? [load.coldWater_C];
  const warmest_C = Math.max(...cold);
  if (!(warmest_C < load.use_C))
    return [
      problem(
        "LOAD_COLD_WATER",
        load.coldWaterMonths_C === undefined ? "coldWater_C" : "coldWaterMonths_C",
        `Cold water of ${figure(warmest_C, 1)} °C is not cooler than the ${figure(load.use_C, 1)} °C at which hot water is drawn.`,
      ),
    ];
  if (draw_m3_h === null) return [];
  const mean_kW =
    (sum(draw_m3_h) / draw_m3_h.length) * Math.min(...monthlyHeat_kWh_m3(load)) + lossesOf(load);
  if (!(mean_kW > load.heater_kW)) return [];
  return [
    problem(
      "LOAD_HOT_WATER_HEATER",
      "heater_kW",
      `Draw and losses take ${figure(mean_kW)} kW on the year's average, and the tank's heat exchanger gives ${figure(load.heater_kW)} kW; it can never keep up.`,
    ),
  ];
}

export function oilProblems(load: LoadOf<"thermal-oil">, path: string): Problem[] {
  const { in_C, out_C, oil, flowIs } = load;
  const problems: Problem[] = [];
  const add = (column: string, message: string, code: Code = "LOAD_OIL_TEMPERATURES") =>
    problems.push({ code, message, place: { path: `${path}/${column}` } });
  if (flowIs === "m3/h" && oil.by === "data-sheet" && oil.density_kg_m3 === undefined)
    add(
      "oil/density_kg_m3",
      "The flow is in m³/h and the oil's density at the meter is not given; it is in the oil's data sheet.",
      "LOAD_OIL_DENSITY",
    );
  if (!(out_C < in_C))
    add(
      "out_C",
      `The oil goes out at ${figure(in_C, 1)} °C and comes back at ${figure(out_C, 1)} °C; it must come back cooler.`,
    );
  if (oil.by === "data-sheet" && in_C > oil.highest_C)
    add(
      "in_C",
      `Oil of ${figure(in_C, 1)} °C passes the ${figure(oil.highest_C, 1)} °C that its data sheet allows.`,
    );
  if (oil.by === "eutectic" && !(in_C < eutecticLimit_C))
    add(
      "in_C",
      `Oil of ${figure(in_C, 1)} °C must stay below ${eutecticLimit_C} °C: it decomposes, and its film at the wall is hotter still.`,
    );
  return problems;
}
