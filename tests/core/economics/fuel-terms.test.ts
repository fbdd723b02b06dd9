import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkFuel, fuelTerms } from "../../../src/core/economics/fuel-terms.ts";
import { fuels, grossPerNet } from "../../../src/core/economics/fuels.ts";
import { type Fuel, fuelKinds } from "../../../src/core/study/schema/fuel.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const fuel = (changes: Partial<Fuel>): Fuel => ({
  kind: "natural-gas",
  price_per_kWh: 0.04,
  heatingValue: "net",
  escalation_per_year: 0,
  ...changes,
});

describe("default CO2 of fuels", () => {
  // IPCC 2006 Guidelines, vol. 2, tables 1.2, 1.4, 2.2; kg per kWh and kg per kg derived from them.
  it.each([
    ["natural-gas", "0.20196", "2.693"],
    ["gas-oil", "0.26676", "3.186"],
    ["residual-fuel-oil", "0.27864", "3.127"],
    ["lpg", "0.22716", "2.985"],
    ["bituminous-coal", "0.34056", "2.441"],
    ["lignite", "0.36360", "1.202"],
  ] as const)("of %s is %s kg/kWh net and %s kg/kg", (kind, perKWh, perKg) => {
    const { co2_kg_per_kWhNet } = fuelTerms(fuel({ kind }), 0.9);
    expectPrinted(co2_kg_per_kWhNet as number, perKWh);
    expectPrinted(((co2_kg_per_kWhNet as number) / 3.6) * fuels[kind].net_MJ_kg, perKg);
  });

  it("of wood is reported apart and 0 in the fossil total", () => {
    const terms = fuelTerms(fuel({ kind: "wood" }), 0.75);
    expect(terms.biogenic).toBe(true);
    expect(terms.co2_kg_per_kWhNet).toBe(0);
    expectPrinted(terms.biogenicCo2_kg_per_kWhNet, "0.40320");
    expectPrinted((terms.biogenicCo2_kg_per_kWhNet / 3.6) * fuels.wood.net_MJ_kg, "1.747");
    expect(terms.sources.join(" ")).toContain("reported apart");
  });

  it("of an unknown fuel is null and said, never 0", () => {
    const terms = fuelTerms(fuel({ kind: "other" }), 0.8);
    expect(terms.co2_kg_per_kWhNet).toBeNull();
    expect(terms.sources.join(" ")).toContain("not known");
    expect(fuelTerms(fuel({ kind: "other", co2_kg_per_kWh: 0.3 }), 0.8).co2_kg_per_kWhNet).toBe(0.3);
  });

  // Stoichiometry of pure methane gives 54 850 kg/TJ (44.01/16.043 / 50.01 MJ/kg).
  it("of gas lies a little above that of pure methane", () => {
    expectClose(44.01 / 16.043 / 50.01e-6, 54_850, 1e-3);
    expect(fuels["natural-gas"].co2_kg_TJ).toBeGreaterThan(54_850);
    expect(fuels["natural-gas"].co2_kg_TJ).toBeLessThan(54_850 * 1.04);
  });

  // 1 t of steam at 10 bar from 80 °C: 678.2 kWh (IAPWS-IF97), 85 % net; derived. The rounded 678.2
  // gives 797.9 kWh of fuel (797.8 from more digits) and 161.1 kg.
  it("of a tonne of steam from gas", () => {
    const { efficiencyNet, co2_kg_per_kWhNet } = fuelTerms(fuel({}), 0.85);
    expectPrinted(678.2 / efficiencyNet, "797.9");
    expectPrinted((678.2 / efficiencyNet) * (co2_kg_per_kWhNet as number), "161.1");
  });
});

describe("gross and net heating value", () => {
  // Methane: 55.5/50.0 MJ/kg = 1.110; 4 hydrogen atoms weigh 4·1.008 of 16.043.
  it("of methane differ by the latent heat of its water", () => {
    expectPrinted(grossPerNet({ net_MJ_kg: 50.0, hydrogenShare: 4.032 / 16.043, waterShare: 0 }), "1.110");
  });

  // IPCC 2006 vol. 2 ch. 1: net is about 10 % lower for gas, about 5 % lower for coal and oil.
  it.each([
    ["natural-gas", 10],
    ["gas-oil", 5],
    ["residual-fuel-oil", 5],
    ["bituminous-coal", 5],
  ] as const)("of %s differ by about %d %%, to the nearest 2 points", (kind, percent) => {
    expect(Math.abs((1 - 1 / grossPerNet(fuels[kind])) * 100 - percent)).toBeLessThan(2);
  });

  it("leave the price of heat alone, whatever the fuel", () => {
    const share = fc.double({ min: 0.1, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...fuelKinds), share, share, (kind, price_per_kWh, efficiency) => {
        for (const heatingValue of ["net", "gross"] as const) {
          const terms = fuelTerms(fuel({ kind, price_per_kWh, heatingValue }), efficiency);
          expectClose(terms.heatPrice_per_kWh, price_per_kWh / efficiency, 1e-14);
          expectClose(terms.pricePerKWhNet / terms.efficiencyNet, price_per_kWh / efficiency, 1e-13);
        }
      }),
    );
  });

  it("turn 0.81 gross into 0.90 net for gas, and say so", () => {
    const terms = fuelTerms(fuel({ heatingValue: "gross" }), 0.81);
    expectPrinted(terms.efficiencyNet, "0.90");
    expect(terms.pricePerKWhNet).toBeGreaterThan(0.04);
    expect(terms.sources.join(" ")).toContain("converted from gross to net");
  });
});

it("refuses an efficiency above 1 on the gross value only", () => {
  expect(checkFuel(fuel({ heatingValue: "net" }), 1.05, "backups/0")).toEqual([]);
  const [problem] = checkFuel(fuel({ heatingValue: "gross" }), 1.05, "backups/0");
  expect(problem).toMatchObject({
    code: "FUEL_EFFICIENCY_ABOVE_ONE",
    place: { path: "backups/0/efficiency" },
  });
  expect(() => fuelTerms(fuel({}), 0)).toThrow("OUT_OF_RANGE");
});
