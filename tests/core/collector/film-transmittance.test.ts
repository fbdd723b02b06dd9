import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { absorbedYear } from "../../../src/core/collector/absorbed-year.ts";
import {
  filmModifier,
  filmTransmittance,
  fresnel,
  insideTransmittance,
} from "../../../src/core/collector/film-transmittance.ts";
import { incidenceModifier, modifierAt } from "../../../src/core/collector/incidence-modifier.ts";
import type { Optics } from "../../../src/core/study/schema/collector.ts";
import { radians } from "../../../src/core/units.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { desert, desertSun, madeWeather, ofRecord } from "./support.ts";

const film = {
  by: "computed",
  filmTransmittance: 0.92,
  filmPasses: 1,
  filmIndex: 1.4,
  reflectance: 0.88,
  intercept: 0.95,
  absorptance: 0.94,
} as const satisfies Optics;

describe("film at a slant", () => {
  // D&B examples 5.1.1 and 5.3.1 (from memory): glass of index 1.526 reflects 0.0434 head on and 0.093 at 60°
  // (0.185 and 0.001); of extinction 32 1/m, 2.3 mm thick, it passes 0.768 at 60° by (1 − r)/(1 + r), which
  // leaves out the absorption of what is reflected inside: some 0.001.
  it("reflects and passes as the worked examples of glass", () => {
    const headOn = fresnel(1, 1.526);
    expectPrinted(headOn.perpendicular, "0.0434");
    expectPrinted(headOn.parallel, "0.0434");
    const slant = fresnel(Math.cos(60 * radians), 1.526);
    expectPrinted((slant.perpendicular + slant.parallel) / 2, "0.093");
    expectPrinted(slant.perpendicular, "0.185");
    expectPrinted(slant.parallel, "0.001");
    const passed = filmTransmittance(Math.cos(60 * radians), 1.526, Math.exp(-32 * 0.0023));
    expect(Math.abs(passed - 0.768)).toBeLessThan(0.0015);
  });

  // Brewster's angle: the parallel part is not reflected where tan θ = n.
  it("reflects no parallel light at Brewster's angle, and everything at grazing", () => {
    expectClose(fresnel(Math.cos(Math.atan(1.4)), 1.4).parallel, 0, 1e-15);
    expectClose(fresnel(0, 1.4).perpendicular, 1, 1e-15);
    expect(filmTransmittance(0, 1.4, 0.95)).toBe(0);
  });

  it("finds what one passage leaves from the transmittance head on", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        fc.double({ min: 1.01, max: 2, noNaN: true }),
        (inside, index) => {
          expectClose(insideTransmittance(filmTransmittance(1, index, inside), index), inside, 1e-12);
        },
      ),
    );
    expect(insideTransmittance(0.99, 1.5)).toBe(1);
  });

  it("is 1 head on, falls with the angle to 0, and counts each passage", () => {
    const once = filmModifier(film)!;
    const twice = filmModifier({ ...film, filmPasses: 2 })!;
    expect(once(1)).toBe(1);
    let before = 1;
    for (let angle = 5; angle <= 90; angle += 5) {
      const here = once(Math.cos(angle * radians));
      expect(here).toBeLessThan(before);
      expectClose(twice(Math.cos(angle * radians)), here ** 2, 1e-14);
      before = here;
    }
    expectClose(once(0), 0, 1e-12);
  });

  it("multiplies the modifier that is given, and only where there are film and index", () => {
    const b0 = { type: "b0" as const, b0: 0.1 };
    const K = filmModifier(film)!(Math.cos(50 * radians));
    expectClose(modifierAt(b0, 50, film), modifierAt(b0, 50) * K, 1e-14);
    expect(incidenceModifier(b0, film)(95, -0.1, 95, 0)).toBe(0);
    const { filmIndex: _, ...without } = film;
    expect(filmModifier(without)).toBeNull();
    expect(filmModifier({ ...film, filmPasses: 0 })).toBeNull();
    expect(filmModifier({ by: "measured", opticalEfficiency: 0.7 })).toBeNull();
  });

  it("takes light from a year that meets the film at a slant", () => {
    const { filmIndex: _, ...without } = film;
    const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: madeWeather() };
    const absorbed = (optics: Optics) =>
      absorbedYear(
        ofRecord("inflated-film-dish", { optics, mount: { type: "axis-north-south" } }),
        climate,
        1,
      ).absorbed_kWh_per_m2;
    expect(absorbed(film)).toBeLessThan(0.995 * absorbed(without));
    expect(absorbed(film)).toBeGreaterThan(0.9 * absorbed(without));
  });
});
