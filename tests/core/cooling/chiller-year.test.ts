import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  characteristicDifference_K,
  characteristicPowers,
  testedSingleEffect,
} from "../../../src/core/cooling/characteristic.ts";
import { chillerFaults } from "../../../src/core/cooling/chiller-faults.ts";
import { chillerRunRemarks } from "../../../src/core/cooling/chiller-run-remarks.ts";
import { chillerYear, serviceMeans } from "../../../src/core/cooling/chiller-year.ts";
import { enteringWater_C, towerMakeUp_m3_per_kWh } from "../../../src/core/cooling/cooling-water.ts";
import { reversibleCop } from "../../../src/core/cooling/reversible-cop.ts";
import type { Chiller } from "../../../src/core/study/schema/chiller.ts";
import type { ByTemperature, CoolingWater } from "../../../src/core/study/schema/chiller-temperatures.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { steadyWeather } from "../../support/load-inputs.ts";

const tower: CoolingWater = {
  from: "wet-tower",
  approach_K: 4,
  least_C: 20,
  rise_K: 5,
  cyclesOfConcentration: 4,
};
const characteristic: Extract<ByTemperature, { by: "characteristic" }> = {
  by: "characteristic",
  drivingMean_C: 80,
  coldRise_K: 6,
  coolingWater: tower,
  ratedDriving_C: 85,
  ratedCoolingWater_C: 33.5,
  ratedCold_C: 10,
  mostFactor: 1.2,
};
const points: Extract<ByTemperature, { by: "points" }> = {
  by: "points",
  drivingMean_C: 120,
  coldRise_K: 4,
  coolingWater: { from: "dry-cooler", approach_K: 5, least_C: 20, rise_K: 6 },
  points: [
    { coolingIn_C: 20, cop: 0.6, capacityFactor: 1.1 },
    { coolingIn_C: 30, cop: 0.5, capacityFactor: 0.9 },
    { coolingIn_C: 40, cop: 0.3, capacityFactor: 0.3 },
  ],
};
const chiller = (more: Partial<Chiller> = {}): Chiller => ({
  id: "chiller",
  name: "Chiller",
  load: "cold",
  network: "heat",
  effect: "single",
  cop: 0.7,
  drivingLeast_C: 75,
  electricity_kWh_per_kWh: 0.03,
  existing_kW: 0,
  size: { choice: "free" },
  parts: [],
  ...more,
});
const air = (ambient_C: number, humidity = 0.5) => ({
  ...steadyWeather({ ambient_C }),
  humidity_share: new Float64Array(8760).fill(humidity),
});
const faults = (item: Chiller, cold_C = 7, supply_C = 90) =>
  chillerFaults(item, cold_C, supply_C, "chillers/0").map(({ code, place }) => `${code} ${place.path}`);

describe("the characteristic equation", () => {
  // Kühn and Ziegler 2005, from memory: 10 kW at driving 75/68, cooling water 27/35, cold 18/15 °C, COP about 0.77.
  it("gives the tested machine's name plate", () => {
    const at = { driving_C: 71.5, coolingWater_C: 31, cold_C: 16.5 };
    const difference = characteristicDifference_K(testedSingleEffect, at);
    expectPrinted(difference, "23.7");
    const { cold_kW, heat_kW } = characteristicPowers(testedSingleEffect, difference);
    expectPrinted(cold_kW, "11");
    expectPrinted(cold_kW / heat_kW, "0.77");
  });

  it("gives the rated point where the temperatures are those of the rated point", () => {
    const coolingWater: CoolingWater = { from: "by-month", months_C: new Array(12).fill(31), rise_K: 5 };
    const item = chiller({ byTemperature: { ...characteristic, drivingMean_C: 85, coolingWater } });
    const year = chillerYear(item, 7, air(25));
    expectClose(year.cop[4000]!, 0.7, 1e-12);
    expectClose(year.capacityFactor[4000]!, 1, 1e-12);
  });

  it("gives more cold with cooler water and hotter heat, never above the reversible COP", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(number(5, 45), number(0.05, 1), number(60, 95), number(5, 15), (t, rh, driving, cold) => {
        const at = (drivingMean_C: number, ambient_C: number) => {
          const byTemperature = { ...characteristic, drivingMean_C };
          return chillerYear(chiller({ byTemperature }), cold, air(ambient_C, rh));
        };
        const usual = at(driving, t);
        expect(at(driving + 5, t).capacityFactor[0]).toBeGreaterThanOrEqual(usual.capacityFactor[0]!);
        expect(at(driving, t - 3).capacityFactor[0]).toBeGreaterThanOrEqual(usual.capacityFactor[0]!);
        expect(usual.capacityFactor[0]).toBeLessThanOrEqual(1.2 + 1e-12);
        expect(usual.cop[0]).toBeGreaterThan(0);
        if (usual.capacityFactor[0] === 0) return;
        const means = serviceMeans(
          { ...characteristic, drivingMean_C: driving },
          cold,
          usual.coolingIn_C![0]!,
        );
        const limit = reversibleCop(means.driving_C, means.coolingWater_C, means.cold_C);
        expect(usual.cop[0]).toBeLessThanOrEqual(limit + 1e-12);
      }),
      { numRuns: 12 },
    );
  });

  it("stops the chiller where its water is too warm, and says in how many hours", () => {
    const item = chiller({ byTemperature: { ...characteristic, drivingMean_C: 60 } });
    const hot = air(45, 0.8);
    expect(chillerYear(item, 7, hot).capacityFactor[0]).toBe(0);
    const [remark] = chillerRunRemarks(item, 7, hot, "chillers/0");
    expect(remark!.code).toBe("CHILLER_STOPS");
    expect(remark!.message).toContain("8760 hours");
  });
});

describe("points of a data sheet", () => {
  const item = chiller({ effect: "ammonia-water", cop: 0.5, byTemperature: points });

  it("are joined by straight lines, and held beyond the last", () => {
    const at = (ambient_C: number) => chillerYear(item, -10, air(ambient_C));
    expect([at(25).cop[0], at(25).capacityFactor[0]]).toEqual([0.5, 0.9]);
    expectClose(at(20).cop[0]!, 0.55, 1e-12);
    expectClose(at(30).capacityFactor[0]!, 0.6, 1e-12);
    expect(at(45).outsideHours).toBe(8760);
    expect(chillerRunRemarks(item, -10, air(45), "chillers/0").map(({ code }) => code)).toEqual([
      "CHILLER_OUTSIDE",
    ]);
  });

  it("are held to the reversible limit where the water between them needs it", () => {
    const flat = [
      { coolingIn_C: 20, cop: 1.9, capacityFactor: 1 },
      { coolingIn_C: 45, cop: 1.9, capacityFactor: 1 },
    ];
    const greedy = chiller({ effect: "other", cop: 1.9, byTemperature: { ...points, points: flat } });
    const year = chillerYear(greedy, -10, air(35));
    expectClose(year.cop[0]!, reversibleCop(120, 43, -8), 1e-12);
    expect(year.heldHours).toBe(8760);
  });
});

describe("cooling water", () => {
  // ASHRAE Fundamentals 2017 ch. 1 (psychrometric chart 1): 40 °C with a wet bulb of 20 °C is 14 % humid at sea level.
  it("of a tower is the wet bulb plus the approach, and never below what is held", () => {
    const weather = { ...air(40, 0.14), pressure_Pa: new Float64Array(8760).fill(101_325) };
    expectPrinted(enteringWater_C(tower, weather)[0]!, "24");
    expect(enteringWater_C(tower, air(5))[0]).toBe(20);
  });

  it("of a dry cooler follows the air, and that of the sea the month", () => {
    const dry: CoolingWater = { from: "dry-cooler", approach_K: 6, least_C: 20, rise_K: 5 };
    expect(enteringWater_C(dry, air(30))[0]).toBe(36);
    const months_C = [15, 14, 15, 17, 20, 23, 26, 28, 27, 24, 20, 17];
    const sea = enteringWater_C({ from: "by-month", months_C, rise_K: 5 }, air(30));
    expect([sea[0], sea[743], sea[744], sea[8759]]).toEqual([15, 15, 14, 17]);
  });

  // By hand: 3600/2430 = 1.48 kg evaporated for a kWh, a third more at four cycles.
  it("takes the water that evaporation and blow-down need", () => {
    expectPrinted(1000 * towerMakeUp_m3_per_kWh(4), "1.98");
    expectPrinted(1000 * towerMakeUp_m3_per_kWh(1e9), "1.48");
  });
});

describe("chillerFaults(chiller, …)", () => {
  it("finds nothing in a sound chiller", () => {
    expect(faults(chiller())).toEqual([]);
    expect(faults(chiller({ byTemperature: characteristic }))).toEqual([]);
    expect(faults(chiller({ effect: "ammonia-water", byTemperature: points }), -10, 130)).toEqual([]);
  });

  it("refuses water and lithium bromide for cold that freezes water", () => {
    expect(faults(chiller(), 2)).toEqual(["CHILLER_BROMIDE_COLD chillers/0/effect"]);
    expect(faults(chiller({ effect: "double" }), -5)).toEqual(["CHILLER_BROMIDE_COLD chillers/0/effect"]);
    expect(faults(chiller({ effect: "ammonia-water" }), -5)).toEqual([]);
  });

  it("refuses temperatures out of order, each where it lies", () => {
    const at = (more: object) => faults(chiller({ byTemperature: { ...characteristic, ...more } }));
    const group = "chillers/0/byTemperature";
    expect(at({ drivingMean_C: 95 })).toEqual([`CHILLER_DRIVING_MEAN ${group}/drivingMean_C`]);
    expect(at({ coolingWater: { ...tower, least_C: 5 } })).toEqual([
      `CHILLER_TEMPERATURE_ORDER ${group}/coolingWater`,
    ]);
    expect(at({ ratedCoolingWater_C: 9 })).toEqual([
      `CHILLER_TEMPERATURE_ORDER ${group}/ratedCoolingWater_C`,
    ]);
  });

  it("refuses a COP beyond the reversible limit, of the rated point and of every point", () => {
    expect(faults(chiller({ cop: 1.8, byTemperature: characteristic }))).toEqual([
      "CHILLER_BEYOND_REVERSIBLE chillers/0/cop",
    ]);
    const hot = { ...points, points: [points.points[0]!, { coolingIn_C: 60, cop: 1.2, capacityFactor: 1 }] };
    expect(faults(chiller({ effect: "ammonia-water", byTemperature: hot }), -10, 130)).toEqual([
      "CHILLER_BEYOND_REVERSIBLE chillers/0/byTemperature/points/1/cop",
    ]);
  });

  it("does not take a single-effect machine's coefficients for another kind", () => {
    expect(faults(chiller({ effect: "double", cop: 1.2, byTemperature: characteristic }))).toEqual([
      "CHILLER_COEFFICIENTS chillers/0/byTemperature/coefficients",
    ]);
  });

  it("wants points by rising water", () => {
    const back = { ...points, points: [...points.points].reverse() };
    expect(faults(chiller({ effect: "ammonia-water", byTemperature: back }), -10, 130)).toEqual([
      "CHILLER_POINTS chillers/0/byTemperature/points/1/coolingIn_C",
      "CHILLER_POINTS chillers/0/byTemperature/points/2/coolingIn_C",
    ]);
  });
});
