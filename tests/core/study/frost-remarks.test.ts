import { describe, expect, it } from "vitest";
import { constantYear } from "../../../src/core/series.ts";
import { frostRemarks } from "../../../src/core/study/checks/frost-remarks.ts";
import type { Study } from "../../../src/core/study/schema/study.ts";
import { smallStudy } from "../../support/small-study.ts";

describe("frostRemarks(study, weather)", () => {
  const cold = { ambient_C: constantYear(12) };
  cold.ambient_C.set([-0.5, -7.25, 0], 100);
  const told = (change: (study: Study) => void, weather = cold) => {
    const study = smallStudy();
    change(study);
    return frostRemarks(study, weather);
  };

  it("tells the hours of frost and the coldest of them to who collects heat for water", () => {
    const [remark, ...others] = told(() => {});
    expect(others).toEqual([]);
    expect(remark).toMatchObject({ code: "REMARK_FROST", place: { path: "collectors/0" } });
    expect(remark!.message).toContain("The weather has 2 hours below 0 °C, down to −7.3 °C");
  });

  it("is silent without frost, with protection, and where no water can freeze", () => {
    expect(told(() => {}, { ambient_C: constantYear(0) })).toEqual([]);
    expect(told((s) => Object.assign(s.collectors[0]!, { frost: { by: "drain", keepAbove_C: 4 } }))).toEqual(
      [],
    );
    expect(told((s) => Object.assign(s.networks[0]!, { carrier: "thermal-oil" }))).toEqual([]);
    expect(told((s) => Object.assign(s.collectors[0]!, { highestOutlet_C: 60 }))).toEqual([]);
    const pipes = {
      length_m: 100,
      forAperture_m2: 1000,
      outerDiameter_mm: 60.3,
      wall_mm: 2.9,
      insulation_mm: 60,
      insulation_W_mK: 0.045,
    };
    expect(
      told((s) => Object.assign(s.collectors[0]!, { pipes: { ...pipes, fluid: "thermal-oil" } })),
    ).toEqual([]);
    expect(
      told((s) => Object.assign(s.collectors[0]!, { pipes: { ...pipes, fluid: "water" } })),
    ).toHaveLength(1);
  });
});
