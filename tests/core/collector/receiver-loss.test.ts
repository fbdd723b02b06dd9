import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import {
  churchillBernstein,
  churchillChuCylinder,
  churchillChuPlate,
  flatPlateFlow,
} from "../../../src/core/collector/convection.ts";
import {
  collectorStagnation_C,
  heatLoss_W_m2,
  lossFunction,
  stagnation_C,
} from "../../../src/core/collector/heat-loss.ts";
import { airAt, rayleigh } from "../../../src/core/collector/receiver-air.ts";
import { type ComputedLoss, emittanceAt, receiverLoss } from "../../../src/core/collector/receiver-loss.ts";
import type { HeatLoss } from "../../../src/core/study/schema/collector.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { desert, desertSun, madeWeather, ofRecord, perfect } from "./support.ts";

const tube: ComputedLoss = {
  by: "computed",
  receiver: "bare-tube",
  concentration: 20,
  width_m: 0.07,
  emittance: 0.9,
};
const conditions = ["vacuum", "lost-vacuum", "hydrogen", "broken-glass"] as const;

describe("evacuated tube, published test", () => {
  const loss = (condition: (typeof conditions)[number]): HeatLoss => ({
    by: "evacuated-tube",
    condition,
    apertureWidth_m: 1,
  });

  // Burkholder & Kutscher, NREL/TP-550-45633 (2009), tables 6 and 8 (coefficients seen printed; loss computed):
  // 350 °C, air 30 °C, 950 W/m² at 20°, 2 m/s: vacuum 158.1, lost vacuum 1090, hydrogen 839 W/m.
  it("gives the losses of whole and failed tubes", () => {
    const beam = 950 * Math.cos((20 * Math.PI) / 180);
    const at = (condition: (typeof conditions)[number]) =>
      lossFunction(loss(condition))(350, 30, 2, 0, 0, beam);
    expectPrinted(at("vacuum"), "158.1");
    expectPrinted(at("lost-vacuum") / 10, "109");
    expectPrinted(at("hydrogen"), "839");
    expect(at("broken-glass")).toBeGreaterThan(at("lost-vacuum"));
  });

  // The same: still air, no sun, absorber at 100 and 506 °C over air of 25 °C; measured 15 and 495 W/m (table 3).
  it("agrees with the measured points of the tube without sun", () => {
    const at = (absorber: number) => lossFunction(loss("vacuum"))(absorber, 25, 0, 0);
    expect(Math.abs(at(100) - 15)).toBeLessThan(3);
    expect(Math.abs(at(506) - 495)).toBeLessThan(20);
  });

  it("takes the light on the aperture for the beam where none is told, and divides by the aperture", () => {
    const wide = lossFunction({ by: "evacuated-tube", condition: "vacuum", apertureWidth_m: 5 });
    expectClose(wide(300, 20, 3, 800), wide(300, 20, 3, 0, 0, 800), 1e-15);
    expectClose(5 * wide(300, 20, 3, 800), lossFunction(loss("vacuum"))(300, 20, 3, 800), 1e-15);
  });

  // By hand: one hour a noon of 800 W/m² on a dish head on, half of it lost to dirt; the glass sees 400 W/m².
  it("sees in a year the beam that reaches it, not the light on the aperture", () => {
    const dni_W_m2 = Float64Array.from({ length: 8760 }, (_, i) => (i % 24 === 12 ? 800 : 0));
    const climate = {
      latitude_deg: desert.latitude_deg,
      sun: desertSun,
      weather: { ...madeWeather(), dni_W_m2 },
    };
    const heatLoss: HeatLoss = { by: "evacuated-tube", condition: "vacuum", apertureWidth_m: 5 };
    const dirty = { ...perfect({ type: "two-axes" }), cleanliness: 0.5, heatLoss };
    const { losses } = collectorYear(dirty, climate, [{ collectorIn_C: 290, collectorOut_C: 310 }])
      .levels[0]!;
    expectClose(losses.heatLoss, (365 * lossFunction(heatLoss)(300, 20, 3, 800, 0, 400)) / 1000, 1e-9);
  });
});

describe("convection", () => {
  // Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, examples 9.4, 7.4, 9.2 and 7.1, from memory.
  it("gives the Nusselt numbers of the worked examples", () => {
    expectPrinted(churchillChuPlate(0.69)(1.813e9), "147");
    expectPrinted(flatPlateFlow(0.687)(9597), "57.4");
    const plate = flatPlateFlow(0.7);
    expect(Math.abs(plate(500_001) / plate(499_999) - 1)).toBeLessThan(0.01);
    // Prints 40.6 and 23.3; the printed equations give 40.68 and 23.09 from the printed numbers, so one part in a hundred.
    expect(Math.abs(churchillBernstein(0.702)(6071) / 40.6 - 1)).toBeLessThan(0.01);
    expect(Math.abs(churchillChuCylinder(0.697)(5.073e6) / 23.3 - 1)).toBeLessThan(0.01);
  });

  // Incropera table A.4, from memory: conductivity 1e-3 W/(m·K) and kinematic viscosity 1e-6 m²/s of air.
  // Its densities are those of 1 bar, so the viscosity is brought to 1 atm.
  it("knows air of 300 to 600 K", () => {
    const table = [
      [300, 26.3, 15.89],
      [400, 33.8, 26.41],
      [500, 40.7, 38.79],
      [600, 46.9, 52.69],
    ] as const;
    for (const [T, conductivity, viscosity] of table) {
      const air = airAt(T - 273.15);
      expect(Math.abs((1000 * air.conductivity_W_mK) / conductivity - 1)).toBeLessThan(0.02);
      expect(Math.abs((1e6 * air.viscosity_m2_s * 1.01325) / viscosity - 1)).toBeLessThan(0.02);
    }
  });

  // Incropera example 9.4, from memory: pipe 0.1 m, surface 165 °C, air 23 °C, emissivity 0.85: Ra 5.073e6,
  // convection 325 and radiation 441 W/m. The book's air is of 1 bar with Pr 0.697, so within a few per cent.
  it("gives the loss of the pipe of the worked example", () => {
    expect(Math.abs(rayleigh(airAt(94), 142, 0.1) / 1.01325 ** 2 / 5.073e6 - 1)).toBeLessThan(0.03);
    const pipe: ComputedLoss = { ...tube, concentration: 1, width_m: 0.1, emittance: 0.85 };
    const perMetre = receiverLoss(pipe)(165, 23, 0) * Math.PI * 0.1;
    expect(Math.abs(perMetre / (325 + 441) - 1)).toBeLessThan(0.02);
  });
});

describe("computed receiver", () => {
  // Burkholder & Kutscher 2009: emittance 0.062 + 2.00e-7·T², 0.064 at 100 °C, 0.094 at 400 °C.
  it("lets the emittance grow with temperature squared, to 1 at most", () => {
    const selective = { ...tube, emittance: 0.062, emittanceGrowth_per_C2: 2e-7 };
    expectPrinted(emittanceAt(selective, 100), "0.064");
    expectPrinted(emittanceAt(selective, 400), "0.094");
    expect(emittanceAt({ ...selective, emittance: 0.99 }, 600)).toBe(1);
  });

  it("spreads the receiver's loss over the aperture and adds insulation to it", () => {
    const at = (more: Partial<ComputedLoss>) => receiverLoss({ ...tube, ...more })(300, 20, 2);
    expectClose(at({ concentration: 40 }), at({}) / 2, 1e-14);
    expectClose(at({ insulated_W_m2K: 0.1 }), at({}) + 28, 1e-14);
    expectClose(
      heatLoss_W_m2(tube, 300, { ambient_C: 20, wind_m_s: 2, onAperture_W_m2: 900 }),
      at({}),
      1e-15,
    );
  });

  it("rises with temperature, wind and emittance for every receiver and is 0 at the air's temperature", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const receiver = fc.constantFrom("bare-tube" as const, "flat" as const, "cavity" as const);
    fc.assert(
      fc.property(
        receiver,
        number(0.01, 1),
        number(-20, 45),
        number(1, 600),
        number(0, 20),
        number(0, 0.1),
        (kind, width_m, air, excess, wind, emittance) => {
          const loss = { ...tube, receiver: kind, width_m, emittance };
          const at = receiverLoss(loss);
          const here = at(air + excess, air, wind);
          expect(here).toBeGreaterThan(0);
          expect(at(air + excess + 5, air, wind)).toBeGreaterThan(here);
          expect(
            receiverLoss({ ...loss, emittance: emittance + 0.1 })(air + excess, air, wind),
          ).toBeGreaterThan(here);
          expect(at(air, air, wind)).toBe(0);
          expect(at(air - 5, air, wind)).toBe(0);
        },
      ),
    );
    for (const kind of ["bare-tube", "flat", "cavity"] as const) {
      const at = receiverLoss({ ...tube, receiver: kind });
      expect(at(300, 20, 8)).toBeGreaterThan(at(300, 20, 2));
      expect(Number.isNaN(at(300, Number.NaN, 2))).toBe(true);
    }
  });

  it("stagnates where its loss is what it absorbs, hotter with more concentration", () => {
    for (const condition of conditions) {
      const loss: HeatLoss = { by: "evacuated-tube", condition, apertureWidth_m: 5 };
      expectClose(lossFunction(loss)(stagnation_C(loss, 700, 25), 25, 3, 0), 700, 1e-6);
    }
    const at = (concentration: number) => stagnation_C({ ...tube, concentration }, 700, 25);
    expectClose(receiverLoss(tube)(at(20), 25, 0), 700, 1e-6);
    expect(at(100)).toBeGreaterThan(at(20));
  });

  it("has no stagnation temperature without losses", () => {
    const collector = ofRecord("flat-plate");
    expect(collectorStagnation_C(collector, 1000, 30)).toBeGreaterThan(100);
    const lossless = { ...collector, heatLoss: { by: "iso-9806" as const, a1_W_m2K: 0, a2_W_m2K2: 0 } };
    expect(collectorStagnation_C(lossless, 1000, 30)).toBeNull();
  });
});
