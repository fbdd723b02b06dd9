import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import { collectorRecords } from "../../../src/core/collector/records.ts";
import { hoursPerYear } from "../../../src/core/series.ts";
import type { Collector } from "../../../src/core/study/schema/study.ts";
import { evenly } from "../../support/evenly.ts";
import { desert, desertSun, madeWeather, ofRecord } from "./support.ts";

/** A made-up year with windy spells, cold nights and hot days. */
const weather = {
  ...madeWeather(),
  wind_m_s: Float64Array.from({ length: hoursPerYear }, (_, i) => 9 + 7 * Math.sin(i / 37) + 2 * Math.sin(i)),
  ambient_C: Float64Array.from(
    { length: hoursPerYear },
    (_, i) => 12 + 14 * Math.sin(i / 1394) + 9 * Math.sin((i % 24) / 4),
  ),
};
const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather };

const between = evenly;
const sometimes = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });

/** Without the properties that are undefined. */
function present<T extends object>(values: T): { [K in keyof T]?: NonNullable<T[K]> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: NonNullable<T[K]>;
  };
}

const mounts = fc.constantFrom<Collector["mount"]>(
  { type: "fixed", tilt_deg: 30, azimuth_deg: 180 },
  { type: "axis-north-south" },
  { type: "axis-east-west" },
  { type: "vertical-axis", tilt_deg: 40 },
  { type: "two-axes" },
);
const heatLosses = fc.constantFrom<Collector["heatLoss"]>(
  { by: "iso-9806", a1_W_m2K: 0.6, a2_W_m2K2: 0.003 },
  {
    by: "iso-9806",
    a1_W_m2K: 1,
    a2_W_m2K2: 0.003,
    a3_J_m3K: 0.1,
    a4: 0.3,
    a5_kJ_m2K: 8,
    a6_s_m: 0.005,
    a7_s_m: 0.01,
    a8_W_m2K4: 1e-9,
  },
  { by: "receiver-tube", linear_W_mK: 0.141, quartic_W_mK4: 6.48e-9, apertureWidth_m: 5, a5_kJ_m2K: 4 },
  { by: "evacuated-tube", condition: "vacuum", apertureWidth_m: 5 },
  { by: "computed", receiver: "cavity", concentration: 400, width_m: 0.3, emittance: 0.9, a5_kJ_m2K: 2 },
);

const collectors = fc
  .record({
    record: fc.constantFrom(...collectorRecords.map(({ id }) => id)),
    mount: mounts,
    heatLoss: heatLosses,
    diffuseModifier: fc.constantFrom(0, 0.5, 0.9),
    cleanliness: between(0.6, 1),
    storm: fc.record({ stowWind_m_s: between(6, 20), backAfter_h: fc.integer({ min: 0, max: 12 }) }),
    calmer: sometimes(between(0, 1)),
    soiling: sometimes(
      fc.record({ lossPerDay: between(0, 0.01), washEvery_days: fc.integer({ min: 1, max: 90 }) }),
    ),
    outages: sometimes(
      fc.array(
        fc.record({
          fromMonth: fc.integer({ min: 1, max: 12 }),
          fromDay: fc.integer({ min: 1, max: 28 }),
          days: fc.integer({ min: 1, max: 30 }),
        }),
        {
          maxLength: 3,
        },
      ),
    ),
    availability: sometimes(between(0.5, 1)),
    leastIrradiance_W_m2: sometimes(between(0, 500)),
    pipes: sometimes(
      fc.record({
        length_m: between(1, 5000),
        forAperture_m2: fc.constant(5000),
        outerDiameter_mm: between(20, 300),
        wall_mm: between(1, 8),
        insulation_mm: between(0, 150),
        insulation_W_mK: between(0.02, 0.1),
        fluid: fc.constantFrom("water" as const, "thermal-oil" as const, "air" as const),
      }),
    ),
    frost: sometimes(
      fc.record({
        by: fc.constantFrom("electric" as const, "drain" as const),
        keepAbove_C: between(-5, 15),
      }),
    ),
    ageing_per_year: between(0, 0.2),
    filmAgeing: sometimes(fc.record({ reflectanceLost_per_year: between(0, 0.1) })),
  })
  .map(({ record, calmer, storm, ...changes }) =>
    ofRecord(record, {
      ...present(changes),
      storm: { ...storm, ...(calmer === undefined ? {} : { returnWind_m_s: calmer * storm.stowWind_m_s }) },
    }),
  );

describe("the losses of a collector's year", () => {
  it("close to 1e-9 of the light for any collector, with everything in use or not", () => {
    fc.assert(
      fc.property(collectors, between(40, 350), (collector, mean_C) => {
        const levels = [mean_C, mean_C / 2].map((mean) => ({
          collectorIn_C: mean - 5,
          collectorOut_C: mean + 5,
        }));
        const year = collectorYear(collector, climate, levels);
        const light = year.dni_kWh_per_m2 + year.diffuseOnAperture_kWh_per_m2;
        for (const { losses, useful_kWh_per_m2, yield_kW_per_m2 } of year.levels) {
          const lost = Object.values(losses).reduce((all, loss) => all + loss, 0);
          expect(Math.abs(light - lost - useful_kWh_per_m2)).toBeLessThan(1e-9 * light);
          expect(
            Math.abs(yield_kW_per_m2.reduce((all, each) => all + each, 0) - useful_kWh_per_m2),
          ).toBeLessThan(1e-9 * light);
          for (const [name, loss] of Object.entries(losses)) {
            if (name !== "modifier") expect(loss, name).toBeGreaterThanOrEqual(-1e-9 * light);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});
