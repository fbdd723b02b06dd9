import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import { dailyCleanliness, washingWater_L_per_m2 } from "../../../src/core/collector/daily-cleanliness.ts";
import { outageDays } from "../../../src/core/collector/outage-days.ts";
import { runningPower } from "../../../src/core/collector/running-power.ts";
import { constantYear, hoursPerYear, sum } from "../../../src/core/series.ts";
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

describe("soiling", () => {
  it("falls by the same share every day and is back after washing, the last interval being shorter", () => {
    const days = dailyCleanliness({ cleanliness: 0.96, soiling: { lossPerDay: 0.005, washEvery_days: 14 } });
    expect(days).toHaveLength(365);
    for (const [day, since] of [
      [0, 0],
      [1, 1],
      [13, 13],
      [14, 0],
      [363, 13],
      [364, 0],
    ] as const)
      expectClose(days[day]!, 0.96 * (1 - 0.005 * since), 1e-15);
  });

  // The mean of the line over whole intervals, 1 − r·(N − 1)/2: arithmetic.
  it("has the mean of the line over whole intervals", () => {
    const interval = fc.constantFrom(1, 5, 73, 365);
    fc.assert(
      fc.property(interval, fc.double({ min: 0, max: 0.0027, noNaN: true }), (washEvery_days, lossPerDay) => {
        const days = dailyCleanliness({ cleanliness: 1, soiling: { lossPerDay, washEvery_days } });
        expectClose(sum(days) / 365, 1 - (lossPerDay * (washEvery_days - 1)) / 2, 1e-12);
      }),
    );
  });

  it("takes its share of every day's light, and is one figure for the year where dirt is washed off daily", () => {
    const soiling = { lossPerDay: 0.01, washEvery_days: 10 };
    const clean = collectorYear(perfect({ type: "two-axes" }), made, at(80)).absorbed_W_m2;
    const dirty = collectorYear({ ...perfect({ type: "two-axes" }), soiling }, made, at(80));
    for (let hour = 8; hour < hoursPerYear; hour += 24)
      expectClose(
        dirty.absorbed_W_m2[hour]!,
        clean[hour]! * (1 - 0.01 * (Math.floor(hour / 24) % 10)),
        1e-12,
      );
    const daily = { ...plain(), cleanliness: 0.9, soiling: { lossPerDay: 0.2, washEvery_days: 1 } };
    expect(collectorYear(daily, made, at(80))).toEqual(
      collectorYear({ ...plain(), cleanliness: 0.9 }, made, at(80)),
    );
  });

  it("needs water for every washing begun", () => {
    const litres = (washEvery_days: number, water_L_per_m2?: number) =>
      washingWater_L_per_m2({
        soiling: {
          lossPerDay: 0,
          washEvery_days,
          ...(water_L_per_m2 === undefined ? {} : { water_L_per_m2 }),
        },
      });
    expect([litres(365, 2), litres(364, 2), litres(7, 0.5), litres(7)]).toEqual([2, 4, 26.5, 0]);
    expect(washingWater_L_per_m2({})).toBe(0);
  });
});

describe("days out of use", () => {
  const plannedDays = (...outages: NonNullable<Collector["outages"]>) =>
    [...outageDays(outages)].flatMap((out, day) => (out === 1 ? [day] : []));

  it("counts days of a year of 365 days, on into January where they reach past its end", () => {
    expect(plannedDays()).toEqual([]);
    expect(plannedDays({ fromMonth: 2, fromDay: 28, days: 2 })).toEqual([58, 59]);
    expect(plannedDays({ fromMonth: 12, fromDay: 30, days: 3 })).toEqual([0, 363, 364]);
    expect(plannedDays({ fromMonth: 7, fromDay: 1, days: 365 })).toHaveLength(365);
  });

  it("yields nothing on planned days, as ever on the others, and tells the light lost", () => {
    const outages = [{ fromMonth: 6, fromDay: 1, days: 14 }];
    const whole = collectorYear(plain(), made, at(100));
    const year = collectorYear(plain({ outages }), made, at(100));
    const [first, last] = [151 * 24, 165 * 24];
    let light = 0;
    for (let i = 0; i < hoursPerYear; i += 1) {
      const isOut = i >= first && i < last;
      if (isOut) light += made.weather.dni_W_m2[i]! / 1000;
      if (year.levels[0]!.yield_kW_per_m2[i] !== (isOut ? 0 : whole.levels[0]!.yield_kW_per_m2[i]))
        expect.unreachable(`hour ${i}`);
    }
    expectClose(year.levels[0]!.losses.outage, light, 1e-9);
  });

  it("needs to warm up again after an outage", () => {
    const heatLoss = { by: "iso-9806", a1_W_m2K: 1, a2_W_m2K2: 0, a5_kJ_m2K: 500 } as const;
    const hour = 165 * 24 + 12;
    const of = (changes: Partial<Collector>) =>
      collectorYear(plain({ heatLoss, ...changes }), made, at(100)).levels[0]!;
    const rested = of({ outages: [{ fromMonth: 6, fromDay: 1, days: 14 }] });
    const [day, same] = [rested, of({})].map(({ yield_kW_per_m2 }) =>
      sum(yield_kW_per_m2.slice(hour - 12, hour + 12)),
    );
    // 500 kJ/(m²·K) × 80 K = 11 kWh/m² is more than a day's sun brings.
    expect(day).toBe(0);
    expect(same).toBeGreaterThan(1);
  });

  it("is, with an availability, the same year of a smaller share of the field", () => {
    const collector = ofRecord("inflated-film-trough");
    const all = collectorYear(collector, made, at(180));
    const most = collectorYear({ ...collector, availability: 0.95 }, made, at(180));
    const [whole, less] = [all.levels[0]!, most.levels[0]!];
    expectClose(less.useful_kWh_per_m2, 0.95 * whole.useful_kWh_per_m2, 1e-12);
    for (let i = 0; i < hoursPerYear; i += 1)
      expectClose(less.yield_kW_per_m2[i]!, 0.95 * whole.yield_kW_per_m2[i]!, 1e-12);
    expect(less.runningHours).toBe(whole.runningHours);
    const light = all.beamOnAperture_kWh_per_m2 + all.diffuseOnAperture_kWh_per_m2;
    expectClose(less.losses.outage, 0.05 * light, 1e-9);
    for (const name of Object.keys(whole.losses) as (keyof typeof whole.losses)[])
      if (name !== "cosine" && name !== "outage")
        expectClose(less.losses[name], 0.95 * whole.losses[name], 1e-12);
  });

  it("counts a storm in an outage as a storm hour, but its light as outage", () => {
    const outages = [{ fromMonth: 1, fromDay: 1, days: 365 }];
    const year = collectorYear(
      plain({ outages, storm: { stowWind_m_s: 12, backAfter_h: 0 } }),
      { ...made, weather: madeWeather(900, 20, 25) },
      at(100),
    );
    expect(year.stowedHours).toBe(hoursPerYear);
    expect(year.stormLoss_kWh_per_m2).toBe(0);
    expectClose(year.levels[0]!.losses.outage, year.beamOnAperture_kWh_per_m2, 1e-9);
  });
});

describe("electricity", () => {
  // By hand: sun from 6 to 18 h, the first and last of them half lit; useful heat from 9 to 15 h.
  const sunlitShare = Float64Array.from({ length: hoursPerYear }, (_, i) =>
    i % 24 === 6 || i % 24 === 17 ? 0.5 : i % 24 > 6 && i % 24 < 17 ? 1 : 0,
  );
  const yield_kW_per_m2 = Float64Array.from({ length: hoursPerYear }, (_, i) =>
    i % 24 >= 9 && i % 24 < 15 ? 0.5 : 0,
  );
  const hours = {
    sunlitShare,
    yield_kW_per_m2,
    stowed: new Uint8Array(hoursPerYear),
    outageDays: new Uint8Array(365),
  };
  const power = { parasitic_W_m2: 3, tracking_W_m2: 2, blower_W_m2: 1 };

  it("goes to pumps in hours with heat, to drives while the sun is up and to the blower day and night", () => {
    const { parasitic_kW_per_m2, parasitic_kWh_per_m2 } = runningPower(plain(power), hours);
    const day = [...parasitic_kW_per_m2.slice(0, 24)].map((kW) => Math.round(1e6 * kW) / 1000);
    expect(day).toEqual([1, 1, 1, 1, 1, 1, 2, 3, 3, 6, 6, 6, 6, 6, 6, 3, 3, 2, 1, 1, 1, 1, 1, 1]);
    expectClose(parasitic_kWh_per_m2, 365 * (0.003 * 6 + 0.002 * 11 + 0.001 * 24), 1e-12);
    expectClose(sum(parasitic_kW_per_m2), parasitic_kWh_per_m2, 1e-12);
  });

  it("rests the drives in storms and outages, and the blower only where a storm empties the envelope", () => {
    const stowed = new Uint8Array(hoursPerYear);
    stowed.fill(1, 0, 24);
    const out = new Uint8Array(365);
    out[1] = 1;
    const idle = { ...hours, stowed, outageDays: out, yield_kW_per_m2: new Float64Array(hoursPerYear) };
    const storm = { stowWind_m_s: 12, backAfter_h: 0 };
    const kept = runningPower(plain({ ...power, storm }), idle).parasitic_kW_per_m2;
    const emptied = runningPower(
      plain({ ...power, storm: { ...storm, stowing: "emptied" } }),
      idle,
    ).parasitic_kW_per_m2;
    const noons = (series: Float64Array) => [12, 36, 60].map((hour) => series[hour]);
    expect(noons(kept)).toEqual([0.001, 0.001, 0.003]);
    expect(noons(emptied)).toEqual([0, 0.001, 0.003]);
  });

  it("is less by the share under repair, but for the blower's", () => {
    const { parasitic_kW_per_m2 } = runningPower(plain({ ...power, availability: 0.9 }), hours);
    expectClose(parasitic_kW_per_m2[12]!, 0.9 * 0.005 + 0.001, 1e-12);
  });

  it("is one power in hours with heat where nothing else is given", () => {
    const level = collectorYear(ofRecord("inflated-film-trough"), made, at(180)).levels[0]!;
    const { parasitic_W_m2 } = ofRecord("inflated-film-trough");
    expect(level.parasitic_kWh_per_m2).toBe((parasitic_W_m2 / 1000) * level.runningHours);
    expect(level.parasitic_kW_per_m2).toEqual(
      level.yield_kW_per_m2.map((heat) => (heat > 0 ? parasitic_W_m2 / 1000 : 0)),
    );
  });
});
