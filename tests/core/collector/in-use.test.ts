import { describe, expect, it } from "vitest";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import { constantYear, hoursPerYear } from "../../../src/core/series.ts";
import type { Collector } from "../../../src/core/study/schema/study.ts";
import { expectClose } from "../../support/close.ts";
import { desert, desertSun, madeWeather, ofRecord, perfect } from "./support.ts";

const made = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: madeWeather() };
const at = (mean: number) => [{ collectorIn_C: mean - 10, collectorOut_C: mean + 10 }];

/** A perfect dish that loses 1 W/(m²·K): its year can be worked out with pencil and paper. */
const plain = (changes: Partial<Collector> = {}): Collector => ({
  ...perfect({ type: "two-axes" }),
  heatLoss: { by: "iso-9806", a1_W_m2K: 1, a2_W_m2K2: 0 },
  ...changes,
});

describe("least light to start at", () => {
  // By hand: at 100 °C and 20 °C ambient the loss is 80 W/m². Two hours a noon: one of 150 W/m², one of 600 W/m².
  const dni_W_m2 = Float64Array.from({ length: hoursPerYear }, (_, i) =>
    i % 24 === 11 ? 150 : i % 24 === 12 ? 600 : 0,
  );
  const climate = { ...made, weather: { ...made.weather, dni_W_m2 } };
  const year = (changes: Partial<Collector>) => collectorYear(plain(changes), climate, at(100)).levels[0]!;

  it("leaves the light of weaker hours unused and loses no other", () => {
    const free = year({});
    expectClose(free.useful_kWh_per_m2, (365 * (70 + 520)) / 1000, 1e-12);
    const { useful_kWh_per_m2, runningHours, losses } = year({ leastIrradiance_W_m2: 150.5 });
    expectClose(useful_kWh_per_m2, (365 * 520) / 1000, 1e-12);
    expectClose(losses.tooWeak, (365 * 150) / 1000, 1e-12);
    expectClose(losses.heatLoss, (365 * 80) / 1000, 1e-12);
    expect(runningHours).toBe(365);
  });

  it("starts at the least light itself and changes nothing at 0", () => {
    expect(year({ leastIrradiance_W_m2: 150 })).toEqual(year({}));
    expect(year({ leastIrradiance_W_m2: 0 })).toEqual(year({}));
  });

  // By hand: 3.6 kJ/(m²·K) are 1 Wh/(m²·K), so the body goes to its balance of 20 °C + 150 W/m² / 1 W/(m²·K) = 170 °C
  // by 1 − exp(−1) in the weak hour from 20 °C: 114.8 °C, above the 100 °C at which the next hour works.
  it("lets the body warm in weak hours, so the next hour has it warm", () => {
    const heatLoss = { by: "iso-9806", a1_W_m2K: 1, a2_W_m2K2: 0, a5_kJ_m2K: 3.6 } as const;
    expectClose(year({ heatLoss, leastIrradiance_W_m2: 200 }).losses.warmUp, 0, 1e-12);
    const weaker = Float64Array.from(dni_W_m2, (beam) => (beam === 150 ? 60 : beam));
    const { losses } = collectorYear(
      plain({ heatLoss, leastIrradiance_W_m2: 200 }),
      { ...made, weather: { ...made.weather, dni_W_m2: weaker } },
      at(100),
    ).levels[0]!;
    // The night's 22 hours leave exp(−22) of the day's rise.
    const missing_K = 80 - 60 * (1 - Math.exp(-1));
    expectClose(losses.warmUp, (365 * missing_K) / 1000, 1e-6);
  });

  it("counts diffuse light where the collector uses it", () => {
    const plate = ofRecord("flat-plate", { leastIrradiance_W_m2: 40 });
    const weather = { ...madeWeather(0), dhi_W_m2: constantYear(80), ghi_W_m2: constantYear(80) };
    const { losses } = collectorYear(plate, { ...made, weather }, at(40)).levels[0]!;
    expect(losses.tooWeak).toBe(0);
    expect(losses.heatLoss).toBeGreaterThan(0);
  });
});
