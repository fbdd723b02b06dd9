import { beforeAll, describe, expect, it } from "vitest";
import type { Study } from "../../../../src/core/study/schema/study.ts";
import { type Sizing, sizePlant } from "../../../../src/core/study/size-plant.ts";
import { loadSolvers } from "../../../../src/solver/solvers.ts";
import { expectClose, expectPrinted } from "../../../support/close.ts";
import { plantOf } from "../../../support/small-plant.ts";
import { smallStudy } from "../../../support/small-study.ts";

const total = (series: Float64Array) => series.reduce((all, value) => all + value, 0);

/** A cool room by the weather, a chiller with a wet tower, and an electric chiller by the outdoor air. */
function coolStudy(): Study {
  const study = smallStudy();
  study.loads.push({
    kind: "cooling",
    id: "cool-room",
    name: "Cool room",
    cold_kW: { from: "constant", level: 40 },
    byWeather: { balance_C: 20, cold_kW_per_K: 4 },
    coldSupply_C: 7,
    electricChiller: {
      cop: 3,
      byAmbient: { by: "slope", ratedAmbient_C: 35, lostPerK: 0.02, leastCop: 2, mostCop: 6 },
    },
  });
  study.chillers.push({
    id: "absorber",
    name: "Absorption chiller",
    load: "cool-room",
    network: "hot-water",
    effect: "single",
    cop: 0.7,
    byTemperature: {
      by: "characteristic",
      drivingMean_C: 80,
      coldRise_K: 6,
      ratedDriving_C: 85,
      ratedCoolingWater_C: 33.5,
      ratedCold_C: 10,
      mostFactor: 1.2,
      coolingWater: { from: "wet-tower", approach_K: 4, least_C: 22, rise_K: 5, cyclesOfConcentration: 4 },
    },
    drivingLeast_C: 75,
    electricity_kWh_per_kWh: 0.02,
    existing_kW: 0,
    size: { choice: "fixed", fixed: 60 },
    parts: [{ name: "Chiller", price_per_unit: 200, life_years: 20, upkeep_per_unit_year: 2 }],
  });
  study.electricity.price_per_kWh = 0.3;
  return study;
}

describe("cooling that goes by the weather", () => {
  let sizing: Sizing;
  let model: ReturnType<typeof plantOf>;
  beforeAll(async () => {
    model = plantOf(coolStudy());
    const solvers = await loadSolvers();
    sizing = sizePlant(model, { method: "typical-days", solvers, version: "0", remarks: [] });
  });

  it("delivers the cold asked for, hour by hour, within what the chiller can make", () => {
    const [cold] = sizing.plan.hours.cold;
    const [chiller] = model.problem.chillers;
    cold!.demand_kW.forEach((kW, t) => {
      expectClose(cold!.absorption_kW[t]! + cold!.electric_kW[t]!, kW, 1e-9);
      expect(cold!.absorption_kW[t]).toBeLessThanOrEqual(60 * chiller!.capacityFactor[t]! + 1e-6);
      expectClose(kW, 40 + 4 * Math.max(0, model.weather.ambient_C[t]! - 20), 1e-12);
    });
    expectClose(sizing.result.cold![0]!.delivered_kWh, total(cold!.demand_kW), 1e-9);
  });

  it("rejects cold and driving heat, and gives a tower its water for it", () => {
    const [year] = sizing.result.cold!;
    const [cop] = model.problem.chillers.map((item) => item.cop);
    const absorbed = sizing.plan.hours.cold[0]!.absorption_kW;
    expect(year!.byAbsorption_kWh).toBeGreaterThan(1000);
    expectClose(
      year!.drivingHeat_kWh,
      absorbed.reduce((all, kW, t) => all + kW / cop![t]!, 0),
      1e-9,
    );
    expectClose(year!.rejected_kWh, year!.byAbsorption_kWh + year!.drivingHeat_kWh, 1e-12);
    expectPrinted((1000 * year!.towerWater_m3!) / year!.rejected_kWh, "1.98");
    // The process draws a constant 500 kW; the rest of the network's heat drives the chiller.
    expectClose(year!.drivingHeat_kWh, sizing.result.annual.demand_kWh - 500 * 8760, 1e-6);
  });

  it("avoids the electricity that today's chiller takes beyond the plan's, at its price and CO2", () => {
    const study = coolStudy();
    const [year] = sizing.result.cold!;
    const [cold] = sizing.plan.hours.cold;
    const { electricCop } = model.problem.cold[0]!;
    let now = 0;
    let then = 0.02 * total(cold!.absorption_kW);
    cold!.demand_kW.forEach((kW, t) => {
      now += kW / electricCop[t]!;
      then += cold!.electric_kW[t]! / electricCop[t]!;
    });
    expectClose(year!.electricityAvoided_kWh, now - then, 1e-6);
    expectClose(year!.electricityCostAvoided, 0.3 * (now - then), 1e-6);
    const factor = study.electricity.co2_kg_per_kWh;
    expect(year!.co2Avoided_kg).toBe(factor === undefined ? null : year!.electricityAvoided_kWh * factor);
  });
});
