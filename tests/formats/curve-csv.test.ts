import { describe, expect, it } from "vitest";
import { curveCsv } from "../../src/formats/curve-csv.ts";
import { sampleCurve } from "../support/sample-charts.ts";

describe("curve.csv", () => {
  const curve = sampleCurve();
  const [head, ...rows] = curveCsv(curve).trimEnd().split("\n");
  const cells = rows.map((row) => row.split(","));

  it("has a row for every point, which says its line and what made it", () => {
    expect(head).toBe(
      "line,aperture_m2,store_kWh,solarFraction,fuelCostAvoided,annualCost,spilled_kWh,unmet_kWh,by",
    );
    const lines = cells.map(([line, ...rest]) => `${line} ${rest.at(-1)}`);
    const count = (what: string) => lines.filter((line) => line === what).length;
    for (const { storeFactor, points } of curve.lines)
      expect(count(`store x ${storeFactor} replay`)).toBe(points.length);
    expect(count("bound lp")).toBe(curve.bound.length);
    for (const what of ["optimum lp", "optimum replay", "chosen replay", "chosen lp"])
      expect(count(what)).toBe(1);
    expect(new Set(cells.map((row) => row.length))).toEqual(new Set([9]));
  });

  it("writes figures in full, so that they read back as they were", () => {
    const bound = cells.filter(([line]) => line === "bound");
    bound.forEach((row, index) => {
      const { aperture_m2, annualCost, unmet_kWh } = curve.bound[index]!;
      expect([Number(row[1]), Number(row[5]), Number(row[7])]).toEqual([aperture_m2, annualCost, unmet_kWh]);
    });
  });

  it("leaves out what is not there", () => {
    const csv = curveCsv({ ...curve, chosen: null, chosenBound: null, bound: [] });
    expect(csv).not.toContain("chosen");
    expect(csv).not.toContain("bound");
  });
});
