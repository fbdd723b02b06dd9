import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { humidityRatio } from "../../../src/core/air/psychrometrics.ts";
import { electricCopYear } from "../../../src/core/cooling/electric-chiller-year.ts";
import { reversibleElectricCop } from "../../../src/core/cooling/reversible-cop.ts";
import { weatherCold_kW } from "../../../src/core/cooling/weather-cold.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { steadyWeather } from "../../support/load-inputs.ts";

const cycle = {
  by: "reversible-share",
  ratedAmbient_C: 35,
  condenserApproach_K: 12,
  evaporatorApproach_K: 4,
  condenserLeast_C: 25,
} as const;
const slope = { by: "slope", ratedAmbient_C: 35, lostPerK: 0.02, leastCop: 2, mostCop: 6 } as const;
const copAt = (byAmbient: typeof cycle | typeof slope, ...ambient_C: number[]) =>
  electricCopYear({ cop: 3, byAmbient }, 7, Float64Array.from(ambient_C));

describe("electricCopYear(chiller, …)", () => {
  // Carnot refrigerator 7/35 °C, worked by hand: 280.15/28.
  it("prints the reversible limit", () => {
    expectPrinted(reversibleElectricCop(35, 7), "10.0");
  });

  it("is the COP given at its outdoor temperature, whichever way it goes", () => {
    for (const byAmbient of [cycle, slope]) expectClose(copAt(byAmbient, 35)[0]!, 3, 1e-12);
    expect(electricCopYear({ cop: 3 }, 7, new Float64Array(8760)).every((cop) => cop === 3)).toBe(true);
  });

  // By hand: share 3/(276.15/44) = 0.47800; at 20 °C outdoors 0.47800 · 276.15/29 = 4.552.
  it("follows the reversible cycle between evaporator and condenser", () => {
    expectPrinted(copAt(cycle, 20)[0]!, "4.552");
    const [cold, colder] = copAt(cycle, 13, -20);
    expect(colder).toBe(cold);
  });

  it("never rises with warmer air, and keeps its bounds", () => {
    const celsius = fc.double({ min: -30, max: 50, noNaN: true });
    fc.assert(
      fc.property(celsius, celsius, fc.constantFrom(cycle, slope), (a, b, byAmbient) => {
        const [warm, cool] = copAt(byAmbient, Math.max(a, b), Math.min(a, b));
        expect(warm).toBeLessThanOrEqual(cool!);
        expect(warm).toBeGreaterThan(0);
        if (byAmbient.by === "slope") expect(cool).toBeLessThanOrEqual(6);
      }),
    );
  });
});

describe("weatherCold_kW(given, air)", () => {
  const air = (ambient_C: number) => steadyWeather({ ambient_C });

  it("is so much for a kelvin above the balance, nothing below, and at most what is given", () => {
    const given = { balance_C: 18, cold_kW_per_K: 5 };
    expect(weatherCold_kW(given, air(28))[0]).toBe(50);
    expect(weatherCold_kW(given, air(17))[0]).toBe(0);
    expect(weatherCold_kW({ ...given, most_kW: 30 }, air(28))[0]).toBe(30);
  });

  it("adds cold for moisture above the ratio to keep", () => {
    const weather = { ...air(30), humidity_share: new Float64Array(8760).fill(0.6) };
    const ratio_g_kg = 1000 * humidityRatio(30, 0.6, weather.pressure_Pa[0]!);
    const humidity = { limit_g_kg: 9, cold_kW_per_g_kg: 3 };
    const cold_kW = weatherCold_kW({ balance_C: 40, cold_kW_per_K: 5, humidity }, weather);
    expectClose(cold_kW[0]!, 3 * (ratio_g_kg - 9), 1e-12);
    expect(cold_kW[0]).toBeGreaterThan(0);
  });
});
