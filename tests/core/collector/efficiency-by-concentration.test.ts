import { describe, expect, it } from "vitest";
import { efficiencyByConcentration } from "../../../src/core/collector/efficiency-by-concentration.ts";
import { lossFunction } from "../../../src/core/collector/heat-loss.ts";
import { interceptFactor, type ShapeOptics } from "../../../src/core/collector/intercept.ts";
import type { ComputedLoss } from "../../../src/core/collector/receiver-loss.ts";
import { expectClose } from "../../support/close.ts";
import { ofRecord } from "./support.ts";

const optics: ShapeOptics = {
  by: "shape",
  shape: "dish",
  concentration: 200,
  rimAngle_deg: 45,
  slopeError_mrad: 5,
  specularity_mrad: 2,
  trackingError_mrad: 3,
  sunShape: "disc",
  filmTransmittance: 0.92,
  filmPasses: 1,
  reflectance: 0.88,
  absorptance: 0.95,
  receiverShadow: 0.01,
};
const heatLoss: ComputedLoss = {
  by: "computed",
  receiver: "cavity",
  concentration: 200,
  width_m: 0.2,
  emittance: 0.95,
};
const conditions = {
  meanFluid_C: [150, 300, 450],
  slopeError_mrad: [2, 5, 10],
  beam_W_m2: 900,
  ambient_C: 25,
  wind_m_s: 3,
};

describe("efficiency by concentration", () => {
  const { curves } = efficiencyByConcentration({ optics, heatLoss }, conditions)!;
  const curve = (meanFluid_C: number, slopeError_mrad: number) =>
    curves.find((c) => c.meanFluid_C === meanFluid_C && c.slopeError_mrad === slopeError_mrad)!;

  it("draws one curve a temperature and slope error, its best point on it and inside its ends", () => {
    expect(curves).toHaveLength(9);
    for (const { concentration, efficiency, best } of curves) {
      expect(efficiency).toHaveLength(concentration.length);
      expect(Math.max(...efficiency)).toBe(best.efficiency);
      expect(efficiency[concentration.indexOf(best.concentration)]).toBe(best.efficiency);
      expect(best.concentration).toBeGreaterThan(concentration[0]!);
      expect(best.concentration).toBeLessThan(concentration.at(-1)!);
    }
  });

  it("has its best at more concentration when hotter, at less and lower when the mirror is coarser", () => {
    expect(curve(450, 5).best.concentration).toBeGreaterThan(curve(150, 5).best.concentration);
    expect(curve(300, 10).best.concentration).toBeLessThan(curve(300, 2).best.concentration);
    for (const T of conditions.meanFluid_C) {
      expect(curve(T, 10).best.efficiency).toBeLessThan(curve(T, 5).best.efficiency);
      expect(curve(T, 5).best.efficiency).toBeLessThan(curve(T, 2).best.efficiency);
    }
    expect(curve(450, 5).best.efficiency).toBeLessThan(curve(150, 5).best.efficiency);
  });

  it("is the film, mirror, intercept, absorber and loss of each point", () => {
    const { concentration, efficiency } = curve(300, 5);
    for (const i of [3, 14, 25]) {
      const ratio = concentration[i]!;
      const light =
        0.92 *
        0.88 *
        0.95 *
        interceptFactor({ ...optics, concentration: ratio }) *
        (1 - (0.01 * 200) / ratio);
      const lost = lossFunction({ ...heatLoss, concentration: ratio })(300, 25, 3, 900) / 900;
      expectClose(efficiency[i]!, light - lost, 1e-12);
    }
  });

  it("scales a measured loss with the receiver, and has nothing to draw for other optics", () => {
    const measured = { by: "iso-9806" as const, a1_W_m2K: 0.3, a2_W_m2K2: 0 };
    const steady = efficiencyByConcentration({ optics, heatLoss: measured }, conditions)!.curves[0]!;
    const cold = efficiencyByConcentration(
      { optics, heatLoss: measured },
      { ...conditions, meanFluid_C: [25] },
    )!.curves[0]!;
    const ratio = steady.concentration[10]!;
    expectClose(cold.efficiency[10]! - steady.efficiency[10]!, (0.3 * 125 * 200) / ratio / 900, 1e-12);
    expect(efficiencyByConcentration(ofRecord("inflated-film-dish"), conditions)).toBeNull();
  });
});
