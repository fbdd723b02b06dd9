import { describe, expect, it } from "vitest";
import { collectorFaults } from "../../../src/core/collector/collector-faults.ts";
import { rimConcentration, secondLawConcentration } from "../../../src/core/collector/concentration-limit.ts";
import type { ShapeOptics } from "../../../src/core/collector/intercept.ts";
import { remarks } from "../../../src/core/study/checks/remarks.ts";
import type { Collector } from "../../../src/core/study/schema/study.ts";
import { radians } from "../../../src/core/units.ts";
import { expectPrinted } from "../../support/close.ts";
import { smallStudy } from "../../support/small-study.ts";
import { ofRecord } from "./support.ts";

const dish: ShapeOptics = {
  by: "shape",
  shape: "dish",
  concentration: 1000,
  rimAngle_deg: 45,
  slopeError_mrad: 3,
  specularity_mrad: 1,
  trackingError_mrad: 2,
  sunShape: "limb-darkened",
  filmTransmittance: 0.92,
  filmPasses: 1,
  reflectance: 0.9,
  absorptance: 0.95,
  receiverShadow: 0.02,
};

const computed = (receiver: "bare-tube" | "flat" | "cavity", concentration: number) =>
  ({ by: "computed", receiver, concentration, width_m: 0.1, emittance: 0.2 }) as const;

describe("the concentration of a computed heat loss", () => {
  const told = (changes: Partial<Collector>) =>
    collectorFaults(ofRecord("inflated-film-dish", changes), "c").map(
      ({ place, message }) => `${place.path}: ${message}`,
    );

  // D&B sec. 7.2: 1/sin 4.65 mrad = 215.05 in one plane, its square 46 249 in two.
  it("is refused beyond the second law, of a tube and of a mount that turns in one plane sooner", () => {
    expect(told({ heatLoss: computed("bare-tube", 215) })).toEqual([]);
    expect(told({ heatLoss: computed("bare-tube", 216) })).toEqual([
      "c/heatLoss/concentration: No mirror concentrates 216 times on a tube: the second law allows 215 from a sun of 4.65 mrad.",
    ]);
    expect(told({ heatLoss: computed("cavity", 46_000) })).toEqual([]);
    expect(told({ heatLoss: computed("cavity", 47_000) })[0]).toContain("the second law allows 46248");
    expect(told({ mount: { type: "axis-north-south" }, heatLoss: computed("flat", 300) })[0]).toContain(
      "300 times on this mount: the second law allows 215",
    );
  });
});

describe("limit of concentration", () => {
  // D&B sec. 7.2 and Rabl 1976 (from memory): half-angle 0.27°, linear 212, circular 45 000.
  it("is 212 in one plane and 45 000 in two", () => {
    expectPrinted(secondLawConcentration("trough", 0.27 * radians), "212");
    expectPrinted(secondLawConcentration("dish", 0.27 * radians) / 1000, "45");
  });

  // D&B sec. 7.9 and 7.11 (from memory): greatest at 90° for a tube, 1/π of the limit; at 45° for a disc, 1/4.
  it("is a part of that for a parabola, greatest at its best rim angle", () => {
    const share = (shape: "trough" | "dish", rimAngle_deg: number) =>
      rimConcentration({ shape, rimAngle_deg }) / secondLawConcentration(shape);
    expectPrinted(share("trough", 90), "0.3183");
    expectPrinted(share("trough", 30), "0.1592");
    expectPrinted(share("dish", 45), "0.2500");
    expectPrinted(share("dish", 22.5), "0.1250");
    expect(share("trough", 110)).toBe(share("trough", 90));
  });

  it("is named as a fault, by the law or by the rim angle", () => {
    const codes = (optics: ShapeOptics, mount = ofRecord("inflated-film-dish").mount) =>
      collectorFaults(ofRecord("inflated-film-dish", { optics, mount }), "collectors/0").map(
        ({ code, place }) => [code, place.path],
      );
    const concentration = ["COLLECTOR_CONCENTRATION", "collectors/0/optics/concentration"];
    expect(codes(dish)).toEqual([]);
    expect(codes({ ...dish, concentration: 47_000 })).toEqual([concentration]);
    expect(codes({ ...dish, concentration: 9000, rimAngle_deg: 25 })).toEqual([concentration]);
    expect(codes(dish, { type: "axis-north-south" })).toEqual([
      ["COLLECTOR_SHAPE_MOUNT", "collectors/0/mount/type"],
    ]);
    const trough = { ...dish, shape: "trough" as const, rimAngle_deg: 80, concentration: 60 };
    expect(codes(trough, { type: "axis-north-south" })).toEqual([]);
    expect(codes({ ...trough, concentration: 75 }, { type: "axis-north-south" })).toEqual([concentration]);
    expect(codes(trough, { type: "fixed", tilt_deg: 30, azimuth_deg: 180 })).toEqual([
      ["COLLECTOR_SHAPE_MOUNT", "collectors/0/mount/type"],
    ]);
  });

  it("is remarked where optics and heat loss do not agree on it", () => {
    const codes = (concentration: number) => {
      const study = smallStudy();
      const heatLoss = {
        by: "computed" as const,
        receiver: "cavity" as const,
        concentration,
        width_m: 0.2,
        emittance: 0.95,
      };
      study.collectors = [{ ...study.collectors[0]!, optics: dish, heatLoss }];
      return remarks(study).map(({ code }) => code);
    };
    expect(codes(1000)).not.toContain("REMARK_CONCENTRATIONS");
    expect(codes(900)).toContain("REMARK_CONCENTRATIONS");
  });
});
