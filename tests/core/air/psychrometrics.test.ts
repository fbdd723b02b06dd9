import fc from "fast-check";
import psychrolib from "psychrolib";
import { describe, expect, it } from "vitest";
import { dryerExhaust } from "../../../src/core/air/dryer-exhaust.ts";
import {
  humidityRatio,
  moistAirEnthalpy_kJ_kg,
  moistAirVolume_m3_kg,
  relativeHumidity,
  standardPressure_Pa,
  vapourPressureAtSaturation_Pa,
} from "../../../src/core/air/psychrometrics.ts";
import { wetBulb_C } from "../../../src/core/air/wet-bulb.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

psychrolib.SetUnitSystem(psychrolib.SI);

const relative = (actual: number, expected: number, tolerance: number) =>
  expect(Math.abs(actual / expected - 1), `${actual} against ${expected}`).toBeLessThan(tolerance);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("moist air", () => {
  // ASHRAE Fundamentals 2017 chapter 1 table 3, as printed in the tests of psychrolib; the table comes
  // from a later formulation than equations 5 and 6, which stay within 300 ppm of it.
  it.each([
    [-20, 103.24],
    [5, 872.6],
    [25, 3169.7],
    [50, 12351.3],
    [100, 101418],
    [150, 476101.4],
  ])("saturates at %d °C within 300 ppm of the table", (temperature_C, printed_Pa) => {
    relative(vapourPressureAtSaturation_Pa(temperature_C), printed_Pa, 300e-6);
  });

  // Same chapter, table 2; it holds the enhancement factor, so it lies 0.4 to 1.2 % above ideal gas.
  it.each([
    [5, 0.005425, 0.005402],
    [25, 0.020173, 0.020081],
    [50, 0.086863, 0.086327],
    [85, 0.838105, 0.828075],
  ])("holds at %d °C what the table holds less the enhancement", (temperature_C, table, idealGas) => {
    const ratio = humidityRatio(temperature_C, 1, 101325);
    relative(ratio, table, 0.013);
    expect(Math.abs(ratio - idealGas)).toBeLessThan(0.6e-6);
  });

  // Same table: 76.504 and 275.353 kJ/kg with enhancement.
  it("has the table's saturated enthalpy within 0.5 %", () => {
    relative(moistAirEnthalpy_kJ_kg(25, humidityRatio(25, 1, 101325)), 76.504, 0.005);
    relative(moistAirEnthalpy_kJ_kg(50, humidityRatio(50, 1, 101325)), 275.353, 0.005);
  });

  // Eq. 30 worked by hand: 1.006·30 + 0.02·(2501 + 55.8).
  it("prints the enthalpy at 30 °C and 0.02 kg/kg", () => {
    expectPrinted(moistAirEnthalpy_kJ_kg(30, 0.02), "81.316");
  });

  // Eq. 3, table 1 of the same chapter.
  it.each([
    [500, "95.461"],
    [1000, "89.875"],
    [4000, "61.640"],
  ])("prints the standard pressure at %d m", (elevation_m, printed) => {
    expectPrinted(standardPressure_Pa(elevation_m) / 1000, printed);
  });

  // A spreadsheet value in the tests of psychrolib, which holds it to 3e-4.
  it("finds the wet bulb of 25 °C at 30 °C, 95461 Pa", () => {
    const ratio = 0.019228127;
    expect(Math.abs(wetBulb_C(30, ratio, 95461) - 25)).toBeLessThan(0.005);
  });

  // psychrolib, a general library of the same equations, over the range of weather and dryers.
  it("agrees with a general psychrometric library", () => {
    fc.assert(
      fc.property(between(-20, 90), between(0.01, 1), between(60000, 106000), (t, rh, p) => {
        fc.pre(vapourPressureAtSaturation_Pa(t) * rh < 0.9 * p);
        relative(vapourPressureAtSaturation_Pa(t), psychrolib.GetSatVapPres(t), 1e-9);
        const ratio = humidityRatio(t, rh, p);
        // The library holds 1e-7 kg/kg as its least humidity ratio.
        expect(Math.abs(ratio - psychrolib.GetHumRatioFromRelHum(t, rh, p))).toBeLessThan(
          1e-7 + 1e-9 * ratio,
        );
        expectClose(moistAirEnthalpy_kJ_kg(t, ratio), psychrolib.GetMoistAirEnthalpy(t, ratio) / 1000, 1e-9);
        relative(moistAirVolume_m3_kg(t, ratio, p), psychrolib.GetMoistAirVolume(t, ratio, p), 1e-6);
        expectClose(relativeHumidity(t, ratio, p), rh, 1e-9);
      }),
    );
  });

  it("agrees with the library on the wet bulb", () => {
    fc.assert(
      fc.property(between(2, 60), between(0.15, 1), between(70000, 106000), (t, rh, p) => {
        const ours = wetBulb_C(t, humidityRatio(t, rh, p), p);
        // The equations for ice and water do not meet at 0 °C: just below it each gives an answer of its own.
        fc.pre(Math.abs(ours) > 0.7);
        expect(Math.abs(ours - psychrolib.GetTWetBulbFromRelHum(t, rh, p))).toBeLessThan(0.01);
      }),
    );
  });

  it("refuses what is no air", () => {
    expect(() => humidityRatio(25, 1.01, 101325)).toThrow(/OUT_OF_RANGE/);
    expect(() => humidityRatio(120, 1, 101325)).toThrow(/OUT_OF_RANGE/);
    expect(() => vapourPressureAtSaturation_Pa(Number.NaN)).toThrow(/OUT_OF_RANGE/);
    expect(() => wetBulb_C(20, 0.05, 101325)).toThrow(/OUT_OF_RANGE/);
    expect(() => standardPressure_Pa(20000)).toThrow(/OUT_OF_RANGE/);
  });
});

describe("the exhaust of a dryer", () => {
  // Own derivation from the ASHRAE equations (not published): inlet 25 °C, W 0.0119 heated to 60, 80, 50 °C.
  it.each([
    [60, 1, "2.82"],
    [60, 0.8, "3.13"],
    [60, 0.6, "3.64"],
    [80, 1, "2.95"],
    [80, 0.8, "3.17"],
    [80, 0.6, "3.52"],
    [50, 1, "2.67"],
    [50, 0.8, "3.04"],
    [50, 0.6, "3.71"],
  ])("needs the derived heat for a kg of water at %d °C and exhaust %d", (air_C, exhaust, printed) => {
    const ratio = 0.0119; // 25 °C at 60 %, as the derivation rounds it
    const out = dryerExhaust({ temperature_C: air_C, humidityRatio: ratio }, exhaust, 101325);
    const heat = moistAirEnthalpy_kJ_kg(air_C, ratio) - moistAirEnthalpy_kJ_kg(25, ratio);
    expectPrinted(heat / (out.humidityRatio - ratio) / 1000, printed);
  });

  it("keeps the inlet's enthalpy, reaches its humidity and takes up less the drier it must stay", () => {
    fc.assert(
      fc.property(between(35, 190), between(0, 0.02), between(0.15, 0.95), (air_C, ratio, rh) => {
        fc.pre(relativeHumidity(air_C, ratio, 101325) < rh * 0.99);
        const inlet = { temperature_C: air_C, humidityRatio: ratio };
        const out = dryerExhaust(inlet, rh, 101325);
        expectClose(
          moistAirEnthalpy_kJ_kg(out.temperature_C, out.humidityRatio),
          moistAirEnthalpy_kJ_kg(air_C, ratio),
          1e-7,
        );
        expectClose(relativeHumidity(out.temperature_C, out.humidityRatio, 101325), rh, 1e-9);
        expect(out.humidityRatio).toBeGreaterThan(ratio);
        expect(dryerExhaust(inlet, rh * 0.995, 101325).humidityRatio).toBeLessThan(out.humidityRatio);
      }),
    );
  });

  it("refuses an inlet that is wetter than its exhaust may be", () => {
    expect(() => dryerExhaust({ temperature_C: 30, humidityRatio: 0.025 }, 0.5, 101325)).toThrow(
      /OUT_OF_RANGE/,
    );
  });
});

describe("standardPressure_Pa(elevation)", () => {
  // ISO 2533 standard atmosphere: 89 874.6 Pa at 1000 m, 79 495 Pa at 2000 m (from memory).
  it("follows the standard atmosphere", () => {
    expect(standardPressure_Pa(0)).toBe(101325);
    expectPrinted(standardPressure_Pa(1000) / 1000, "89.87");
    expectPrinted(standardPressure_Pa(2000) / 1000, "79.50");
  });
});
