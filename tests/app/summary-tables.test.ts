import { describe, expect, it } from "vitest";
import { cashFlowTable, ratesTable } from "../../src/app/summary/summary-tables.ts";
import { cashFlow } from "../../src/core/economics/cash-flow.ts";
import type { Result } from "../../src/core/study/result.ts";
import { smallStudy } from "../support/small-study.ts";

describe("tables of the summary", () => {
  it("tell a price that goes by month and year as such", () => {
    const study = smallStudy();
    study.electricity.monthFactors = [1.2, 1.1, 1, 1, 1, 0.9, 0.9, 0.9, 1, 1, 1.1, 1.2];
    study.electricity.yearFactors = [1, 1.5, 1.3];
    const told = ratesTable(study).rows.find(([what]) => what === "Electricity")![1]!;
    expect(told).toMatch(/times 0.9 to 1.2 by the month, times 1 to 1.5 by the year of the period/);
  });

  it("show credits in the cash flow where there are any, so that every row adds up", () => {
    const part = (price_per_unit: number, paidAfter_years: 0 | 1) => ({
      quantity: 1,
      part: { name: "part", price_per_unit, life_years: 5, upkeep_per_unit_year: 0, paidAfter_years },
    });
    const table = (bought: Parameters<typeof cashFlow>[0]["bought"]) =>
      cashFlowTable(smallStudy(), {
        money: {
          cashFlow: cashFlow({
            bought,
            years: 5,
            rate: 0.05,
            avoided: [{ amount_per_year: 300, growth: 0 }],
          }),
        },
      } as unknown as Result);
    expect(table([part(1000, 0)]).columns).toHaveLength(8);
    const credited = table([part(1000, 0), part(-200, 1)]);
    expect(credited.columns.map(({ title }) => title)).toContain("Credits");
    expect(credited.rows[1]).toEqual(["1", "0", "0", "0", "300", "200", "0", "500", "−500"]);
  });
});
