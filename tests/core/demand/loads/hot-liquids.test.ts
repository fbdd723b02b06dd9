import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { liquidLoadProblems } from "../../../../src/core/demand/loads/check-liquids.ts";
import { checkLoad } from "../../../../src/core/demand/loads/check-load.ts";
import { monthlyHeat_kWh_m3 } from "../../../../src/core/demand/loads/hot-water.ts";
import { loadSupply_C } from "../../../../src/core/demand/loads/load-supply.ts";
import { resolveLoad } from "../../../../src/core/demand/loads/resolve-load.ts";
import { oilHeat_kJ_kg } from "../../../../src/core/demand/loads/thermal-oil.ts";
import type { FixedHeat, WaterOrder } from "../../../../src/core/demand/resolved-load.ts";
import { sum } from "../../../../src/core/series.ts";
import { thermalOil } from "../../../../src/core/storage/media.ts";
import type { Load, LoadOf } from "../../../../src/core/study/schema/study.ts";
import { expectClose, expectPrinted } from "../../../support/close.ts";
import { loadInputs, network } from "../../../support/load-inputs.ts";

const constant = { from: "constant", level: 1 } as const;
const washing: LoadOf<"hot-water"> = {
  kind: "hot-water",
  id: "wash",
  name: "Washing",
  network: "heat",
  draw_m3_h: constant,
  use_C: 60,
  coldWater_C: 20,
  tank_m3: 10,
  heater_kW: 100,
};
const oil: LoadOf<"thermal-oil"> = {
  kind: "thermal-oil",
  id: "oil",
  name: "Oil",
  network: "heat",
  flow: constant,
  flowIs: "kg/h",
  in_C: 393,
  out_C: 293,
  oil: { by: "eutectic" },
};
const resolved = (load: LoadOf<"hot-water">, draw: number | Float64Array = 1) =>
  resolveLoad(load, loadInputs(draw, 90)) as WaterOrder;
const codes = (load: Load, supply_C = 90, profile: Float64Array | null = null) =>
  checkLoad(load, { profile, network: network(supply_C), elevation_m: 0 }, "loads/0").map(({ code }) => code);

describe("hot water", () => {
  // checks.md 10.8: 46.4 kW, derived with 1000 kg/m³ and 4.18 kJ/(kg·K); by IF97 the same digits.
  it("takes 46.4 kW for 1 m³/h from 20 to 60 °C", () => {
    expectPrinted(monthlyHeat_kWh_m3(washing)[0]!, "46.4");
    const { heat_kWh_per_m3, order_m3_h } = resolved(washing);
    expectPrinted(heat_kWh_per_m3[4000]! * order_m3_h[4000], "46.4");
    // checks.md 10.4: 1.161 kWh per m³ and kelvin nominal, real water up to 2.5 % less.
    const perKelvin = heat_kWh_per_m3[0]! / 40;
    expect(perKelvin).toBeLessThanOrEqual(1.161);
    expect(perKelvin).toBeGreaterThan(1.161 * 0.975);
  });

  it("orders in every hour the heat of its draw by the month's cold water, and its losses", () => {
    const months = fc.array(fc.integer({ min: 2, max: 30 }), { minLength: 12, maxLength: 12 });
    fc.assert(
      fc.property(months, fc.double({ min: 0, max: 20, noNaN: true }), (cold, loss) => {
        const load = { ...washing, coldWaterMonths_C: cold, recirculation_kW: loss, standingLoss_kW: 1 };
        const draw = Float64Array.from({ length: 8760 }, (_, hour) => (hour % 24 < 12 ? 2 : 0));
        const inputs = loadInputs(draw, 90);
        const order = resolveLoad(load, inputs) as WaterOrder;
        const heat = monthlyHeat_kWh_m3(load);
        for (const hour of [0, 1500, 4000, 8759])
          expectClose(
            order.order_m3_h[hour] * order.heat_kWh_per_m3[hour]!,
            draw[hour] * heat[inputs.calendar.civilMonth[hour] - 1]! + loss + 1,
            1e-9,
          );
        expectClose(order.capacity_m3_h * order.heat_kWh_per_m3[0]!, 100, 1e-9);
        // The tank never holds more heat than it does in the month of the warmest cold water.
        expect(order.heat_kWh_per_m3[0]).toBe(Math.min(...heat));
      }),
      { numRuns: 20 },
    );
  });

  it("needs its network as hot as it is drawn, and says its year", () => {
    expect(loadSupply_C(washing, network(90))).toBe(60);
    expect(codes(washing, 55)).toEqual(["LOAD_NETWORK_TOO_COLD"]);
    expect(resolved(washing).basis).toContain("8,760 m³ of hot water in the year from 20.0 to 60 °C");
  });

  it("is refused where it cannot be made, each fault with its sentence", () => {
    expect(codes({ ...washing, coldWater_C: 60 })).toEqual(["LOAD_COLD_WATER"]);
    expect(codes({ ...washing, heater_kW: 40 }, 90, new Float64Array(8760).fill(1))).toEqual([
      "LOAD_HOT_WATER_HEATER",
    ]);
    expect(codes({ ...washing, heater_kW: 50 }, 90, new Float64Array(8760).fill(1))).toEqual([]);
    expect(codes({ ...oil, out_C: 393 }, 400)).toEqual(["LOAD_OIL_TEMPERATURES"]);
    expect(Object.keys(liquidLoadProblems)).toHaveLength(4);
  });
});

describe("thermal oil", () => {
  // Maker's bulletin, checks.md 4.17: 2.31 kJ/(kg·K) at 300 °C and 2.61 at 393 °C, from memory.
  it("carries its specific heat times the span, between the printed ends", () => {
    expectPrinted(thermalOil.cp_kJ_kgK(300), "2.31");
    expectPrinted(thermalOil.cp_kJ_kgK(393), "2.61");
    const heat = oilHeat_kJ_kg(oil);
    expect(heat).toBeGreaterThan(100 * thermalOil.cp_kJ_kgK(293));
    expect(heat).toBeLessThan(100 * thermalOil.cp_kJ_kgK(393));
    const { heat_kW } = resolveLoad(oil, loadInputs(36_000, 395)) as FixedHeat;
    expectClose(sum(heat_kW), 8760 * 10 * heat, 1e-9);
  });

  // Maker's bulletin, checks.md 4.17: 817 kg/m³ at 300 °C, seen printed.
  it("weighs a flow in m³/h by the density at its meter", () => {
    const metered = { ...oil, flowIs: "m3/h" as const, meter_C: 300 };
    const at = (load: Load) => (resolveLoad(load, loadInputs(1, 395)) as FixedHeat).heat_kW[0];
    expectPrinted(at(metered) / at(oil), "817");
    const sheet = { by: "data-sheet", heatCapacity_kJ_kgK: 2.4, highest_C: 395 } as const;
    expect(codes({ ...metered, oil: sheet }, 400)).toEqual(["LOAD_OIL_DENSITY"]);
    expect(at({ ...metered, oil: { ...sheet, density_kg_m3: 800 } })).toBeCloseTo((800 * 240) / 3600, 9);
  });

  it("has heat whose slope is the specific heat at every temperature", () => {
    fc.assert(
      fc.property(fc.double({ min: 20, max: 390, noNaN: true }), (t) => {
        const slope = (thermalOil.enthalpy_kJ_kg(t + 0.01) - thermalOil.enthalpy_kJ_kg(t - 0.01)) / 0.02;
        expectClose(slope, thermalOil.cp_kJ_kgK(t), 1e-6);
      }),
    );
  });

  it("stops short of 400 °C, and at what a data sheet allows", () => {
    expect(codes({ ...oil, in_C: 399 }, 400)).toEqual([]);
    expect(codes({ ...oil, in_C: 400 }, 400)).toEqual(["LOAD_OIL_TEMPERATURES"]);
    const mineral = { by: "data-sheet", heatCapacity_kJ_kgK: 2.4, highest_C: 310 } as const;
    expect(codes({ ...oil, in_C: 320, oil: mineral }, 400)).toEqual(["LOAD_OIL_TEMPERATURES"]);
    expect(oilHeat_kJ_kg({ in_C: 300, out_C: 250, oil: mineral })).toBeCloseTo(120, 12);
  });
});
