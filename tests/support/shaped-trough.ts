import type { Optics } from "../../src/core/study/schema/study.ts";

/** Optics of a made-up film trough, computed from its shape. */
export const shapedTrough = {
  by: "shape",
  shape: "trough",
  concentration: 20,
  rimAngle_deg: 80,
  slopeError_mrad: 4,
  specularity_mrad: 2,
  trackingError_mrad: 2,
  sunShape: "limb-darkened",
  filmTransmittance: 0.93,
  filmPasses: 1,
  reflectance: 0.9,
  absorptance: 0.93,
  receiverShadow: 0.03,
} as const satisfies Optics;
