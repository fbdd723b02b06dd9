import { pmt } from "financial";
import { describe, expect, it } from "vitest";
import { capitalRecovery } from "../../../src/core/economics/annuity.ts";
import {
  levelisedHeatOfFlows,
  levelisedPrice,
  levelisedSolarHeat,
} from "../../../src/core/economics/levelised-heat.ts";
import { annualCostPerUnit, initialPricePerUnit, partLine } from "../../../src/core/economics/part-cost.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const part = (price_per_unit: number, life_years: number, upkeep_per_unit_year = 0) => ({
  name: "part",
  price_per_unit,
  life_years,
  upkeep_per_unit_year,
});

// No printed worked example was found; constructed, checked by (I0·CRF + O&M)/E.
describe("levelised heat", () => {
  const years = 25;
  const costs = Array<number>(years).fill(5000);

  it("from yearly flows equals the annuity form for constant flows", () => {
    const heat_kWh = Array<number>(years).fill(700_000);
    const flows = { initialCapital: 500_000, cost_per_year: costs, heat_kWh, residual: 0, rate: 0.05 };
    expectPrinted(levelisedHeatOfFlows(flows) as number, "0.057823");
    const parts = [{ part: part(500_000, 25, 5000), quantity: 1 }];
    const annual = levelisedSolarHeat({ parts, parasitics_per_year: 0, solarUsed_kWh: 700_000, rate: 0.05 });
    expectClose(annual as number, levelisedHeatOfFlows(flows) as number, 1e-14);
  });

  it("rises where the output falls by 0.5 % a year", () => {
    const heat_kWh = costs.map((_, index) => 700_000 * 0.995 ** index);
    const flows = { initialCapital: 500_000, cost_per_year: costs, heat_kWh, residual: 0, rate: 0.05 };
    expectPrinted(levelisedHeatOfFlows(flows) as number, "0.060614");
  });

  it("is null where no heat is used", () => {
    expect(
      levelisedSolarHeat({ parts: [], parasitics_per_year: 1, solarUsed_kWh: 0, rate: 0.05 }),
    ).toBeNull();
  });
});

// Constructed from PWF(25, .03, .05)/PWF(25, 0, .05).
it("levelises a fuel price that rises by 3 % a year", () => {
  expectPrinted(levelisedPrice(0.045 / 0.9, 0.03, 0.05, 25), "0.067707");
});

// Spreadsheet documentation: 200 000 at 5 %/12 over 360 months is 1073.64 a month.
it("repays a loan as the printed example does", () => {
  expectPrinted(200_000 * capitalRecovery(0.05 / 12, 360), "1073.64");
  expectClose(200_000 * capitalRecovery(0.05 / 12, 360), -pmt(0.05 / 12, 360, 200_000), 1e-10);
});

describe("parts", () => {
  it("cost their annuity at their own life, and upkeep", () => {
    const parts = [part(40, 20, 0.5), part(2, 2)];
    // Tables: (A/P, 8 %, 20) = 0.10185; (A/P, 8 %, 2) = 1.08²/2.08.
    expectClose(annualCostPerUnit(parts, 0.08), 40 * 0.1018522 + 0.5 + (2 * 1.08 ** 2) / 2.08, 1e-6);
    expect(initialPricePerUnit(parts)).toBe(42);
  });

  it("are listed for their quantity", () => {
    const line = partLine({ item: "dish", unit: "m²", part: part(2, 2, 0.1), quantity: 300 }, 0);
    expect(line).toMatchObject({ price: 600, upkeep_per_year: 30, annualCost: 330, quantity: 300 });
  });

  // Common practice, no source: a heater of about 50 $/m², film at 2-3 $/m² changed every second year.
  it.each([
    [0.05, 25, 2, 1500],
    [0.05, 20, 3, 1000],
    [0.08, 25, 2, 1500],
    [0.08, 20, 3, 1000],
    [0.065, 20, 2.5, 1250],
  ])(
    "give heat at 0.003 to 0.007 per kWh at %d over %d years, film at %d, %d kWh/m²",
    (rate, life, film, heat) => {
      const cost = annualCostPerUnit([part(50, life), part(film, 2)], rate) / heat;
      expect(cost).toBeGreaterThan(0.003);
      expect(cost).toBeLessThan(0.007);
    },
  );
});
