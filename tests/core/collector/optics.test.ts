import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { grossToAperture } from "../../../src/core/collector/gross-to-aperture.ts";
import {
  beamEfficiency,
  hemisphericalEfficiency,
} from "../../../src/core/collector/hemispherical-efficiency.ts";
import { incidenceModifier, modifierAt } from "../../../src/core/collector/incidence-modifier.ts";
import { opticalEfficiency } from "../../../src/core/collector/optical-efficiency.ts";
import type { IncidenceModifier } from "../../../src/core/study/schema/collector.ts";
import { endLoss } from "../../../src/core/sun/end-loss.ts";
import { radians } from "../../../src/core/units.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const dudley: IncidenceModifier = {
  type: "polynomial",
  coefficients: [0.000884, -0.00005369],
  containsCosine: true,
};
const lippke: IncidenceModifier = {
  type: "polynomial",
  coefficients: [-2.23073e-4, -1.1e-4, 3.18596e-6, -4.85509e-8],
  containsCosine: false,
};
const euroTrough: IncidenceModifier = {
  type: "polynomial",
  coefficients: [-5.25097e-4, -2.859621e-5],
  containsCosine: true,
};

describe("incidence angle modifier", () => {
  // Dudley et al., SAND94-1884 (1994), fig. 10 (seen printed); K with the cosine, computed to four places.
  it("gives the trough modifier that contains the cosine", () => {
    const printed = {
      0: "1.0000",
      10: "0.9883",
      20: "0.9359",
      30: "0.8442",
      40: "0.7155",
      50: "0.5528",
      60: "0.3598",
    };
    for (const [angle, K] of Object.entries(printed)) {
      expectPrinted(modifierAt(dudley, Number(angle)) * Math.cos(Number(angle) * radians), K);
    }
  });

  // The same in radians, 1 + (0.0506 i − 0.1763 i²)/cos i: agrees to 2e-4 of K with cosine (rounded coefficients).
  it("takes the coefficients in degrees", () => {
    for (let angle = 0; angle <= 60; angle += 5) {
      const i = angle * radians;
      const inRadians = Math.cos(i) + 0.0506 * i - 0.1763 * i * i;
      expectClose(modifierAt(dudley, angle) * Math.cos(i), inRadians, 2e-4);
    }
  });

  // Lippke, SAND95-1294 (1995), from memory; cosine excluded.
  it("gives the polynomial without the cosine", () => {
    expectPrinted(modifierAt(lippke, 30), "0.941");
    expectPrinted(modifierAt(lippke, 60), "0.650");
  });

  // Geyer et al. 2002 (seen printed): 1 − 5.25097e-4 i/cos i − 2.859621e-5 i²/cos i.
  it("gives the modifier whose terms are divided by the cosine", () => {
    expectPrinted(modifierAt(euroTrough, 30), "0.952");
    expectPrinted(modifierAt(euroTrough, 60), "0.731");
  });

  // checks.md 3.4: a certification data sheet prints 0.90 at 60° and 0 at 90°; the b0 law gives K(60°) = 1 − b0.
  it("follows the b0 law to 0 at 90 degrees", () => {
    expectPrinted(modifierAt({ type: "b0", b0: 0.1 }, 60), "0.90");
    expect(modifierAt({ type: "b0", b0: 0.1 }, 90)).toBe(0);
  });

  // checks.md 3.4: the sheet's table, KT = KL = 0.94 at 50°, 0.90 at 60°, 0 at 90°.
  it("reads a table, interpolates in the angle and multiplies both directions", () => {
    const sheet = {
      type: "table",
      angles_deg: [0, 50, 60, 90],
      longitudinal: [1, 0.94, 0.9, 0],
      transversal: [1, 0.94, 0.9, 0],
    } as const;
    const K = incidenceModifier({
      ...sheet,
      angles_deg: [...sheet.angles_deg],
      longitudinal: [...sheet.longitudinal],
      transversal: [...sheet.transversal],
    });
    expectPrinted(K(50, 0.64, 50, 0), "0.94");
    expectPrinted(K(60, 0.5, 0, 60), "0.90");
    expectClose(K(60, 0.5, 55, 50), 0.92 * 0.94, 1e-12);
    expect(K(90, 0, 90, 0)).toBe(0);
  });

  it("runs from the last angle of a table to 0 at 90 degrees, and starts at 1", () => {
    const table = { type: "table" as const, angles_deg: [30, 60], longitudinal: [0.9, 0.6] };
    expectClose(modifierAt(table, 15), 0.95, 1e-12);
    expectClose(modifierAt(table, 75), 0.3, 1e-12);
  });

  it("is 1 at normal incidence, never negative, and 0 behind the aperture", () => {
    const others: IncidenceModifier[] = [{ type: "b0", b0: 0.3 }, { type: "none" }];
    for (const asGiven of [dudley, lippke, euroTrough, ...others]) {
      expect(modifierAt(asGiven, 0)).toBe(1);
      expect(modifierAt(asGiven, 90)).toBe(0);
      expect(modifierAt(asGiven, 120)).toBe(0);
      fc.assert(
        fc.property(fc.double({ min: 0, max: 90, noNaN: true }), (angle) => modifierAt(asGiven, angle) >= 0),
      );
    }
  });
});

describe("optical efficiency", () => {
  it("counts the film twice where the receiver sits outside it", () => {
    const computed = {
      by: "computed",
      filmTransmittance: 0.9,
      filmPasses: 1,
      reflectance: 0.88,
      intercept: 0.95,
      absorptance: 0.94,
    } as const;
    const once = opticalEfficiency(computed);
    expectClose(once, 0.9 * 0.88 * 0.95 * 0.94, 1e-15);
    expectClose(opticalEfficiency({ ...computed, filmPasses: 2 }), 0.9 * once, 1e-15);
    expectClose(opticalEfficiency({ ...computed, filmPasses: 0 }), once / 0.9, 1e-15);
    expect(opticalEfficiency({ by: "measured", opticalEfficiency: 0.75 })).toBe(0.75);
  });

  // ISO 9806:2017 data sheet (seen printed): η0,b 0.739, Kd 0.91 → 729 W/m² at 1000 W/m².
  it("turns beam efficiency into hemispherical and back", () => {
    expectPrinted(1000 * hemisphericalEfficiency(0.739, 0.91), "729");
    expectClose(beamEfficiency(hemisphericalEfficiency(0.739, 0.91), 0.91), 0.739, 1e-15);
  });

  it("raises figures per gross area to figures per aperture, the heat of the whole collector unchanged", () => {
    expectClose(grossToAperture(0.7, 2.2, 2) * 2, 0.7 * 2.2, 1e-15);
    expect(() => grossToAperture(0.7, 2, 2.2)).toThrow(/OUT_OF_RANGE/);
    expect(() => grossToAperture(0.7, Number.NaN, 2)).toThrow(/OUT_OF_RANGE/);
  });
});

// Lippke 1995, Stuetzle 2002: 1 − f·tan θ / L.
describe("end loss of the collector's row", () => {
  it("gives the computed values for two published troughs", () => {
    const angles = Float64Array.of(30, 60);
    const [a30, a60] = endLoss(angles, 1.71, 148.5);
    const [b30, b60] = endLoss(angles, 1.84, 47.1);
    expectPrinted(a30!, "0.99335");
    expectPrinted(a60!, "0.98006");
    expectPrinted(b30!, "0.97745");
    expectPrinted(b60!, "0.93234");
  });
});
