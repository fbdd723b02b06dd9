import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { collectorFaults } from "../../../src/core/collector/collector-faults.ts";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import { collectorStagnation_C, heatLoss_W_m2 } from "../../../src/core/collector/heat-loss.ts";
import { perAperture } from "../../../src/core/collector/per-aperture.ts";
import { collectorFromRecord } from "../../../src/core/collector/records.ts";
import type { Collector, TestReport } from "../../../src/core/study/schema/collector.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { desert, desertSun, madeWeather } from "./support.ts";

const report: TestReport = {
  source: "Test laboratory, report 1",
  basis: "aperture",
  efficiencyIs: "beam",
  highestTested_C: 90,
};

const isoLoss = { by: "iso-9806" as const, a1_W_m2K: 3.5, a2_W_m2K2: 0.015 };

function tested(change: Partial<Collector>, of: Partial<TestReport> = {}): Collector {
  return {
    ...collectorFromRecord("flat-plate", { id: "plate", networks: ["k"] }).collector,
    optics: { by: "measured", opticalEfficiency: 0.8 },
    heatLoss: isoLoss,
    testReport: { ...report, ...of },
    ...change,
  };
}

const efficiencyOf = ({ optics }: Collector) =>
  optics.by === "measured" ? optics.opticalEfficiency : Number.NaN;

describe("a collector from its ISO 9806 test report", () => {
  // Certification data sheet (seen printed): η0,b 0.739 and Kd 0.91 give 729 W/m² at 850 W/m² beam, 150 W/m² diffuse.
  it("turns the hemispherical efficiency of a data sheet into that of its beam", () => {
    const sheet = tested(
      { optics: { by: "measured", opticalEfficiency: 0.729 }, diffuseModifier: 0.91 },
      { efficiencyIs: "hemispherical" },
    );
    expectPrinted(efficiencyOf(perAperture(sheet)), "0.739");
  });

  // By hand from q·A_gross = q'·A_aperture: 0.72·2.5/2.25 = 0.8 and a1 3.6·2.5/2.25 = 4.
  it("turns figures per m² of gross area into figures per m² of aperture", () => {
    const converted = perAperture(
      tested(
        {
          optics: { by: "measured", opticalEfficiency: 0.72 },
          heatLoss: { by: "iso-9806", a1_W_m2K: 3.6, a2_W_m2K2: 0.009, a5_kJ_m2K: 9, a8_W_m2K4: 9e-10 },
        },
        { basis: "gross", gross_m2: 2.5, aperture_m2: 2.25 },
      ),
    );
    expectClose(efficiencyOf(converted), 0.8, 1e-15);
    expect(converted.heatLoss.by).toBe("iso-9806");
    const expected = { a1_W_m2K: 4, a2_W_m2K2: 0.01, a5_kJ_m2K: 10, a8_W_m2K4: 1e-9 };
    for (const [key, value] of Object.entries(expected)) {
      expectClose((converted.heatLoss as unknown as Record<string, number>)[key]!, value, 1e-14);
    }
  });

  it("leaves figures per aperture for beam, and collectors without a report, as they are", () => {
    const plain = tested({});
    const { testReport: _, ...without } = plain;
    expect(perAperture(plain)).toEqual(without);
    expect(perAperture(without)).toBe(without);
    const gross = tested({}, { basis: "gross", gross_m2: 2.4, aperture_m2: 2 });
    expect(perAperture(perAperture(gross))).toEqual(perAperture(gross));
  });

  it("gives a whole collector the same heat whichever area its report counts", () => {
    fc.assert(
      fc.property(
        fc.record({
          efficiency: fc.double({ min: 0.3, max: 0.7, noNaN: true }),
          a1: fc.double({ min: 0, max: 5, noNaN: true }),
          a2: fc.double({ min: 0, max: 0.02, noNaN: true }),
          a3: fc.double({ min: 0, max: 0.5, noNaN: true }),
          a6: fc.double({ min: 0, max: 0.02, noNaN: true }),
          ratio: fc.double({ min: 1, max: 1.4, noNaN: true }),
          mean_C: fc.double({ min: 25, max: 120, noNaN: true }),
          wind_m_s: fc.double({ min: 3, max: 10, noNaN: true }),
        }),
        ({ efficiency, a1, a2, a3, a6, ratio, mean_C, wind_m_s }) => {
          const aperture_m2 = 2;
          const gross_m2 = aperture_m2 * ratio;
          const heatLoss = { by: "iso-9806" as const, a1_W_m2K: a1, a2_W_m2K2: a2, a3_J_m3K: a3, a6_s_m: a6 };
          const used = perAperture(
            tested(
              { optics: { by: "measured", opticalEfficiency: efficiency }, heatLoss },
              { basis: "gross", gross_m2, aperture_m2 },
            ),
          );
          const around = { ambient_C: 20, wind_m_s, onAperture_W_m2: 900 };
          // The heat of the collector by the standard's own formula, on the gross area of the report.
          const excess_K = mean_C - 20;
          const breeze_m_s = wind_m_s - 3;
          const byReport_W =
            gross_m2 *
            (efficiency * 900 -
              a1 * excess_K -
              a2 * excess_K ** 2 -
              a3 * breeze_m_s * excess_K -
              a6 * breeze_m_s * 900);
          const byProgram_W =
            aperture_m2 * (efficiencyOf(used) * 900 - heatLoss_W_m2(used.heatLoss, mean_C, around));
          expect(Math.abs(byProgram_W - byReport_W)).toBeLessThan(1e-9 * gross_m2 * 900);
        },
      ),
    );
  });

  it("is what the year and the standstill temperature are computed from", () => {
    const gross = tested(
      {},
      { basis: "gross", gross_m2: 2.4, aperture_m2: 2, efficiencyIs: "hemispherical" },
    );
    const used = perAperture(gross);
    const { testReport: _, ...plain } = used;
    const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: madeWeather() };
    const level = [{ collectorIn_C: 60, collectorOut_C: 80 }];
    const year = collectorYear(gross, climate, level).levels[0]!;
    expect(year.useful_kWh_per_m2).toBe(collectorYear(plain, climate, level).levels[0]!.useful_kWh_per_m2);
    const { testReport: __, ...asTyped } = gross;
    expect(year.useful_kWh_per_m2).not.toBe(
      collectorYear(asTyped, climate, level).levels[0]!.useful_kWh_per_m2,
    );
    expect(collectorStagnation_C(gross, 1000, 30)).toBe(collectorStagnation_C(plain, 1000, 30));
  });
});

describe("faults of a test report", () => {
  const codes = (collector: Collector) =>
    collectorFaults(collector, "collectors/0").map(({ code, place }) => `${code} ${place.path}`);

  it("finds nothing in a sound one", () => {
    expect(codes(tested({}))).toEqual([]);
    expect(codes(tested({}, { basis: "gross", gross_m2: 2.2, aperture_m2: 2 }))).toEqual([]);
  });

  it("asks for both areas where the figures are per gross area", () => {
    expect(codes(tested({}, { basis: "gross" }))).toEqual([
      "COLLECTOR_TEST_REPORT collectors/0/testReport/gross_m2",
      "COLLECTOR_TEST_REPORT collectors/0/testReport/aperture_m2",
    ]);
  });

  it("refuses a gross area below the aperture", () => {
    expect(codes(tested({}, { gross_m2: 1.9, aperture_m2: 2 }))).toEqual([
      "COLLECTOR_TEST_REPORT collectors/0/testReport/gross_m2",
    ]);
  });

  it("refuses computed optics and other losses beside it, both at once", () => {
    const computed = tested({
      optics: {
        by: "computed",
        filmTransmittance: 1,
        filmPasses: 0,
        reflectance: 0.9,
        intercept: 0.95,
        absorptance: 0.95,
      },
      heatLoss: { by: "receiver-tube", linear_W_mK: 0.1, quartic_W_mK4: 0, apertureWidth_m: 5 },
    });
    expect(codes(computed)).toEqual([
      "COLLECTOR_TEST_REPORT collectors/0/optics/by",
      "COLLECTOR_TEST_REPORT collectors/0/heatLoss/by",
    ]);
  });

  it("refuses an efficiency that is above 1 on the aperture, in a sentence with both figures", () => {
    const collector = tested({}, { basis: "gross", gross_m2: 3, aperture_m2: 2 });
    expect(codes(collector)).toEqual(["COLLECTOR_TEST_EFFICIENCY collectors/0/optics/opticalEfficiency"]);
    expect(collectorFaults(collector, "c")[0]!.message).toBe(
      "An optical efficiency of 0.8 is 1.200 for beam per m² of aperture, by the report's basis and areas; at most 1 is allowed.",
    );
  });
});
