import { describe, expect, it } from "vitest";
import { testReportTable } from "../../src/present/test-reports.ts";
import { smallStudy } from "../support/small-study.ts";

describe("the table of a test report", () => {
  it("sets what was typed beside what is used", () => {
    const study = smallStudy();
    const collector = study.collectors[0]!;
    Object.assign(collector, {
      optics: { by: "measured", opticalEfficiency: 0.72 },
      heatLoss: { by: "iso-9806", a1_W_m2K: 3.6, a2_W_m2K2: 0.009 },
      testReport: {
        source: "Test laboratory, report 1",
        basis: "gross",
        gross_m2: 2.5,
        aperture_m2: 2.25,
        efficiencyIs: "beam",
        highestTested_C: 90,
      },
    });
    const table = testReportTable(study, collector)!;
    expect(table.columns.map(({ title }) => title)).toEqual([
      "Figure",
      "In the report, per m² of gross area",
      "Used, per m² of aperture",
    ]);
    expect(table.rows).toEqual([
      ["optical efficiency, reported for beam, used for beam", "0.72", "0.800"],
      ["a1, W/(m²·K)", "3.6", "4.00"],
      ["a2, W/(m²·K²)", "0.009", "0.0100"],
      ["highest mean fluid temperature, °C", "90", "90"],
    ]);
  });

  it("is not there without a report, nor with one that has faults", () => {
    const study = smallStudy();
    expect(testReportTable(study, study.collectors[0]!)).toBeNull();
    study.collectors[0]!.testReport = {
      source: "",
      basis: "gross",
      efficiencyIs: "beam",
      highestTested_C: 90,
    };
    expect(testReportTable(study, study.collectors[0]!)).toBeNull();
  });
});
