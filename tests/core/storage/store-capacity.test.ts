import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  media,
  rockBed,
  solarSalt,
  thermalOil,
  volumetricCapacity_kJ_m3K,
} from "../../../src/core/storage/media.ts";
import {
  checkStore,
  hourlyKeep,
  kWhPerCubicMetre,
  storeProblems,
} from "../../../src/core/storage/store-capacity.ts";
import type { Store } from "../../../src/core/study/schema/study.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const held = (medium: Store["medium"], hot_C: number, cold_C: number, usableShare = 1) => ({
  medium,
  hot_C,
  cold_C,
  usableShare,
});

describe("storage media", () => {
  // Zavoico, SAND2001-2100 (2001), p. 23: rho = 2090 − 0.636 T, cp = 1443 + 0.172 T; values worked from it.
  it.each([
    [290, "1905.6", "1.4929"],
    [400, "1835.6", "1.5118"],
    [565, "1730.7", "1.5402"],
  ])("has the published salt at %d °C", (temperature_C, density, cp) => {
    expectPrinted(solarSalt.density_kg_m3(temperature_C), density);
    expectPrinted(solarSalt.cp_kJ_kgK(temperature_C), cp);
  });

  // Maker's bulletin of the diphenyl / diphenyl-oxide eutectic: 817 kg/m³ and 2.31 kJ/(kg·K) at 300 °C,
  // 703 and 2.61 at 393 °C (density seen in print, heat capacity from memory, sure).
  it.each([
    [300, "817", "2.31"],
    [393, "703", "2.61"],
  ])("has the published oil at %d °C", (temperature_C, density, cp) => {
    expectPrinted(thermalOil.density_kg_m3(temperature_C), density);
    expectPrinted(thermalOil.cp_kJ_kgK(temperature_C), cp);
  });

  // Duffie and Beckman ch. 8 (from memory, fairly sure): voids of 0.3 to 0.45.
  it("has a rock bed with voids in the published band and a capacity between oil's and rock's", () => {
    expect(rockBed.voidShare).toBeGreaterThan(0.3);
    expect(rockBed.voidShare).toBeLessThan(0.45);
    const solid_kJ_m3K = 2630 * rockBed.cp_kJ_kgK;
    const bed = volumetricCapacity_kJ_m3K("oil-rock", 250);
    expect(bed).toBeGreaterThan(volumetricCapacity_kJ_m3K("thermal-oil", 250));
    expect(bed).toBeLessThan(solid_kJ_m3K);
  });

  it("has a positive heat capacity over each medium's whole range and refuses what lies outside", () => {
    for (const [name, medium] of Object.entries(media)) {
      for (let part = 0; part <= 20; part += 1) {
        const temperature_C = medium.least_C + ((medium.most_C - medium.least_C) * part) / 20;
        expect(volumetricCapacity_kJ_m3K(name as Store["medium"], temperature_C)).toBeGreaterThan(1000);
      }
      expect(() => volumetricCapacity_kJ_m3K(name as Store["medium"], medium.most_C + 1)).toThrow(
        /OUT_OF_RANGE/,
      );
      expect(() => volumetricCapacity_kJ_m3K(name as Store["medium"], medium.least_C - 1)).toThrow(
        /OUT_OF_RANGE/,
      );
    }
  });
});

describe("kWhPerCubicMetre(store)", () => {
  // Worked from steam tables (from memory, sure) at the mean of 80 °C: 971.8 kg/m³ · 4.196 kJ/(kg·K) · 30 K
  // is 33.98 kWh. Nominal water (1000 kg/m³, 4.18) would give 34.83, 2.5 % more.
  it("gives water the heat of its real density and heat capacity", () => {
    expectPrinted(kWhPerCubicMetre(held("water", 95, 65)), "33.98");
    expectPrinted(kWhPerCubicMetre(held("pressurised-water", 95, 65)), "33.98");
  });

  // Integral of the same published heat capacity: 417 kJ/kg from 290 to 565 °C, 8.63 t per MWh.
  it("gives salt the published heat per kg, at its mean density", () => {
    const mean_kg_m3 = solarSalt.density_kg_m3(427.5);
    const heat_kJ_kg = (kWhPerCubicMetre(held("molten-salt", 565, 290)) * 3600) / mean_kg_m3;
    expectPrinted(heat_kJ_kg, "417.05");
    expectPrinted(3600 / heat_kJ_kg, "8.63");
    expectPrinted((heat_kJ_kg * solarSalt.density_kg_m3(290)) / 3.6e6, "0.2208");
    expectPrinted(
      (kWhPerCubicMetre(held("molten-salt", 385, 290)) * 3600) / solarSalt.density_kg_m3(337.5),
      "142.6",
    );
  });

  it("holds more the hotter it may get, and in proportion to its usable share", () => {
    const name = fc.constantFrom(...(Object.keys(media) as Store["medium"][]));
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(name, part, part, part, (medium, a, b, usable) => {
        const { least_C, most_C } = media[medium];
        const cold_C = least_C + a * (most_C - least_C - 3);
        const hot_C = cold_C + 1 + b * (most_C - cold_C - 2);
        const share = 0.01 + 0.99 * usable;
        const one = kWhPerCubicMetre(held(medium, hot_C, cold_C));
        expectClose(kWhPerCubicMetre(held(medium, hot_C, cold_C, share)), one * share, 1e-12);
        expect(kWhPerCubicMetre(held(medium, hot_C + 1, cold_C))).toBeGreaterThan(one);
      }),
    );
  });

  it("refuses a store that is no warmer when hot", () => {
    expect(() => kWhPerCubicMetre(held("water", 60, 60))).toThrow(/OUT_OF_RANGE/);
    expect(() => kWhPerCubicMetre(held("water", 120, 60))).toThrow(/OUT_OF_RANGE/);
    expect(() => kWhPerCubicMetre(held("water", Number.NaN, 60))).toThrow(/OUT_OF_RANGE/);
  });
});

describe("checkStore(store)", () => {
  it("finds every fault at once, in the catalogue's codes", () => {
    const problems = checkStore(held("molten-salt", 200, 650), "stores/1");
    expect(problems.map(({ code, place }) => [code, place.path])).toEqual([
      ["STORE_TEMPERATURES", "stores/1/hot_C"],
      ["STORE_MEDIUM_RANGE", "stores/1/hot_C"],
      ["STORE_MEDIUM_RANGE", "stores/1/cold_C"],
    ]);
    for (const { code } of problems) expect(Object.keys(storeProblems)).toContain(code);
  });

  it("has nothing to say exactly where the capacity can be told", () => {
    const temperature = fc.double({ min: -20, max: 600, noNaN: true });
    const name = fc.constantFrom(...(Object.keys(media) as Store["medium"][]));
    fc.assert(
      fc.property(name, temperature, temperature, (medium, hot_C, cold_C) => {
        const store = held(medium, hot_C, cold_C);
        if (checkStore(store, "stores/0").length === 0) expect(kWhPerCubicMetre(store)).toBeGreaterThan(0);
        else expect(() => kWhPerCubicMetre(store)).toThrow(/OUT_OF_RANGE/);
      }),
    );
  });
});

describe("hourlyKeep(standingLoss_per_day)", () => {
  it("leaves 1 − loss after 24 hours", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.99, noNaN: true }), (loss) => {
        expectClose(hourlyKeep(loss) ** 24, 1 - loss, 1e-12);
      }),
    );
  });

  // Exact exponential cooling: 500 kg of water (4.18 kJ/(kg·K)), 12 W/K, 60 °C in a room of 20 °C is at
  // 44.36 °C after 24 h (time constant 48.38 h).
  it("cools a tank as the exponential does", () => {
    const constant_h = (500 * 4180) / 12 / 3600;
    expectPrinted(constant_h, "48.38");
    const keep = hourlyKeep(1 - Math.exp(-24 / constant_h));
    let above_K = 40;
    for (let hour = 0; hour < 24; hour += 1) above_K *= keep;
    expectPrinted(20 + above_K, "44.36");
  });

  it("refuses a loss that is no share", () => {
    for (const loss of [-0.1, 1.1, Number.NaN]) expect(() => hourlyKeep(loss)).toThrow(/OUT_OF_RANGE/);
  });
});
