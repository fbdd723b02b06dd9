import fc from "fast-check";
import psychrolib from "psychrolib";
import { describe, expect, it } from "vitest";
import { type DryerAir, dryerBalance } from "../../../src/core/air/dryer-balance.ts";
import { humidityRatio, moistAirEnthalpy_kJ_kg } from "../../../src/core/air/psychrometrics.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const sea_Pa = 101_325;
const outside = { temperature_C: 25, relativeHumidity: 0.6 };
const once = (air_C: number, exhaustRelativeHumidity: number): DryerAir => ({
  air_C,
  exhaustRelativeHumidity,
  recirculatedShare: 0,
  recoveryEffectiveness: 0,
});

const airs = fc.record({
  air_C: fc.double({ min: 45, max: 150, noNaN: true }),
  exhaustRelativeHumidity: fc.double({ min: 0.3, max: 0.95, noNaN: true }),
  recirculatedShare: fc.double({ min: 0, max: 0.95, noNaN: true }),
  recoveryEffectiveness: fc.double({ min: 0, max: 0.9, noNaN: true }),
});
const outsides = fc.record({
  temperature_C: fc.double({ min: -15, max: 35, noNaN: true }),
  relativeHumidity: fc.double({ min: 0.05, max: 0.9, noNaN: true }),
});

describe("dryerBalance(air, outside, pressure)", () => {
  // Derived from the ASHRAE equations with 0.0119 kg/kg outside, own table (checks 5.8). It has 3.64 MJ/kg at
  // 60 °C and 60 %, where unrounded outside air gives 3.635: a rounding of its input, so that row is left out.
  it.each([
    [60, 1, "2.82"],
    [60, 0.8, "3.13"],
    [80, 0.8, "3.17"],
    [50, 0.6, "3.71"],
  ])("gives the floor of once-through air at %i °C and an exhaust of %d", (air_C, humidity, printed) => {
    expectPrinted(dryerBalance(once(air_C, humidity), outside, sea_Pa)!.heat_kJ / 1000, printed);
  });

  it("has the exhaust that psychrolib sees at the same enthalpy", () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    const { exhaust, inlet } = dryerBalance(once(60, 0.6), outside, sea_Pa)!;
    const enthalpy = psychrolib.GetMoistAirEnthalpy(inlet.temperature_C, inlet.humidityRatio);
    expectClose(
      psychrolib.GetMoistAirEnthalpy(exhaust.temperature_C, exhaust.humidityRatio),
      enthalpy,
      1e-3 * enthalpy,
    );
    expectClose(
      psychrolib.GetRelHumFromHumRatio(exhaust.temperature_C, exhaust.humidityRatio, sea_Pa),
      0.6,
      2e-4,
    );
  });

  it("closes water, air and energy to 1e-9, whatever is brought back and recovered", () => {
    fc.assert(
      fc.property(airs, outsides, (air, out) => {
        const balance = dryerBalance(air, out, sea_Pa);
        if (balance === null) return;
        const { fresh_kg, throughDryer_kg, inlet, exhaust, heat_kJ, recovered_kJ } = balance;
        const outRatio = humidityRatio(out.temperature_C, out.relativeHumidity, sea_Pa);
        // Water: a kg leaves with the exhaust let out, and a kg is taken up in the dryer.
        expectClose(fresh_kg * (exhaust.humidityRatio - outRatio), 1, 1e-9);
        expectClose(throughDryer_kg * (exhaust.humidityRatio - inlet.humidityRatio), 1, 1e-9);
        // Energy: what came in with air and heat leaves with the exhaust, cooled by what was recovered.
        const entered =
          fresh_kg * moistAirEnthalpy_kJ_kg(out.temperature_C, outRatio) + heat_kJ + recovered_kJ;
        const left = fresh_kg * moistAirEnthalpy_kJ_kg(exhaust.temperature_C, exhaust.humidityRatio);
        expectClose(entered, left, 1e-9);
        expect(recovered_kJ).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 200 },
    );
  });

  it("needs less heat the more is recovered, and never less than evaporates the water", () => {
    fc.assert(
      fc.property(airs, outsides, (air, out) => {
        const heat = (more: Partial<DryerAir>) => dryerBalance({ ...air, ...more }, out, sea_Pa)?.heat_kJ;
        const [plain, warmed] = [heat({ recoveryEffectiveness: 0 }), heat({ recoveryEffectiveness: 0.5 })];
        if (plain === undefined || warmed === undefined) return;
        expect(warmed).toBeLessThanOrEqual(plain);
        const { exhaust } = dryerBalance(air, out, sea_Pa)!;
        // Vapour at the outside air's temperature, over water at 0 °C: 2501 + 1.86·t kJ/kg.
        if (exhaust.temperature_C >= out.temperature_C)
          expect(warmed).toBeGreaterThan((2501 + 1.86 * out.temperature_C) * (1 - 1e-9));
      }),
      { numRuns: 200 },
    );
  });

  it("moves more air through the dryer the more is brought back, and lets less out", () => {
    const at = (recirculatedShare: number) =>
      dryerBalance({ ...once(80, 0.6), recirculatedShare }, outside, sea_Pa)!;
    expect(at(0.8).fresh_kg).toBeLessThan(at(0).fresh_kg);
    expect(at(0.8).throughDryer_kg).toBeGreaterThan(at(0).throughDryer_kg);
    expect(at(0.8).volume_m3).toBeGreaterThan(at(0).volume_m3);
    // At one relative humidity hotter exhaust carries more water for its heat, but not by much.
    expect(at(0.8).heat_kJ).toBeLessThan(0.95 * at(0).heat_kJ);
    expect(at(0.8).heat_kJ).toBeGreaterThan(0.85 * at(0).heat_kJ);
  });

  it("recovers no more than cools the exhaust to its dew point", () => {
    const wet = { ...once(90, 0.9), recirculatedShare: 0.9, recoveryEffectiveness: 0.9 };
    const { recovered_kJ, fresh_kg, exhaust } = dryerBalance(
      wet,
      { temperature_C: 0, relativeHumidity: 0.5 },
      sea_Pa,
    )!;
    const dewPoint_C = psychrolib.GetTDewPointFromHumRatio(
      exhaust.temperature_C,
      exhaust.humidityRatio,
      sea_Pa,
    );
    const dry =
      moistAirEnthalpy_kJ_kg(exhaust.temperature_C, exhaust.humidityRatio) -
      moistAirEnthalpy_kJ_kg(dewPoint_C, exhaust.humidityRatio);
    expectClose(recovered_kJ, fresh_kg * dry, 1e-3 * recovered_kJ);
  });

  it("is null where the air cannot take up water, and needs no heat where it is hot outside", () => {
    expect(dryerBalance(once(32, 0.7), { temperature_C: 30, relativeHumidity: 0.95 }, sea_Pa)).toBeNull();
    expect(dryerBalance(once(40, 0.8), { temperature_C: 45, relativeHumidity: 0.1 }, sea_Pa)!.heat_kJ).toBe(
      0,
    );
    expect(() => dryerBalance({ ...once(60, 0.8), recirculatedShare: 1 }, outside, sea_Pa)).toThrow(
      /OUT_OF_RANGE/,
    );
  });
});
