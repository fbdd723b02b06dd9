import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import { frostGuard, type LoopYear } from "../../../src/core/collector/frost-guard.ts";
import { constantYear, hoursPerYear, sum } from "../../../src/core/series.ts";
import type { Collector } from "../../../src/core/study/schema/study.ts";
import { expectClose } from "../../support/close.ts";
import { desert, desertSun, madeWeather, ofRecord, perfect } from "./support.ts";

const still = constantYear(0);
const airOf = (ambient_C: number | Float64Array) => ({
  ...madeWeather(),
  ambient_C: typeof ambient_C === "number" ? constantYear(ambient_C) : ambient_C,
});
const loopOf = (changes: Partial<LoopYear> = {}): LoopYear => ({
  heat_kW_per_m2: still,
  absorbed_W_m2: still,
  onAperture_W_m2: still,
  meanFluid_C: 85,
  pipes: null,
  ...changes,
});
/** 2 W/(m²·K), and a heat capacity in Wh/(m²·K). */
const losing2 = (capacity_Wh_m2K: number): Pick<Collector, "heatLoss"> => ({
  heatLoss: { by: "iso-9806", a1_W_m2K: 2, a2_W_m2K2: 0, a5_kJ_m2K: 3.6 * capacity_Wh_m2K },
});
const electric = { by: "electric", keepAbove_C: 5 } as const;
const noons = Float64Array.from({ length: hoursPerYear }, (_, i) => (i % 24 === 12 ? 0.4 : 0));
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("frostGuard, by electricity", () => {
  // By hand: 15 K · 2 W/(m²·K) = 30 W/m² in each of 8760 hours.
  it("heats what is lost at the least temperature", () => {
    const year = frostGuard(electric, losing2(0), loopOf(), airOf(-10));
    expectClose(year.heating_kWh_per_m2, 30 * 8.76, 1e-12);
    expectClose(sum(year.heating_kW_per_m2), year.heating_kWh_per_m2, 1e-12);
    expect(year.heatedHours).toBe(8760);
  });

  // By hand: collector 30 W/m², pipes 0.2 · 15 = 3 W/m².
  it("heats the pipes as well", () => {
    const pipes = { loss_W_m2K: 0.2, capacity_Wh_m2K: 1 };
    const year = frostGuard(electric, losing2(0), loopOf({ pipes }), airOf(-10));
    expectClose(year.heating_kWh_per_m2, 33 * 8.76, 1e-12);
  });

  // By hand: from 85 °C to 5 °C in air of −10 °C with C/U = 5 h takes 5·ln(95/15) = 9.229 h of the 23 h between noons.
  it("lets the day's heat last as long as it does", () => {
    const year = frostGuard(electric, losing2(10), loopOf({ heat_kW_per_m2: noons }), airOf(-10));
    const night = year.heating_kW_per_m2.subarray(24 * 100 + 13, 24 * 101 + 12);
    expectClose(1000 * sum(night as Float64Array), 30 * (23 - 5 * Math.log(95 / 15)), 1e-9);
    expect(year.yield_kW_per_m2).toEqual(noons);
  });

  it("needs nothing in air that does not freeze it, and lets weak light help", () => {
    expect(frostGuard(electric, losing2(0), loopOf(), airOf(5)).heating_kWh_per_m2).toBe(0);
    const lit = frostGuard(electric, losing2(0), loopOf({ absorbed_W_m2: constantYear(12) }), airOf(-10));
    expectClose(lit.heating_kWh_per_m2, 18 * 8.76, 1e-9);
  });

  // A receiver tube's relation does not know the air: at 5 °C over −20 °C it is taken at 25 °C, c1·25 / width.
  it("does not take a vacuum tube's loss for smaller in colder air", () => {
    const heatLoss = { by: "receiver-tube", linear_W_mK: 0.2, quartic_W_mK4: 0, apertureWidth_m: 2 } as const;
    expectClose(
      frostGuard(electric, { heatLoss }, loopOf(), airOf(-20)).heating_kWh_per_m2,
      2.5 * 8.76,
      1e-12,
    );
  });

  // Apart from the closed form: the loop in steps of 10 s with a thermostat, through cold and mild days.
  it("agrees with a loop followed in short steps", () => {
    fc.assert(
      fc.property(between(1, 20), between(-15, 4), between(2, 12), (capacity_Wh_m2K, mean_C, swing_K) => {
        const air = Float64Array.from(
          { length: hoursPerYear },
          (_, i) => mean_C + swing_K * Math.sin(((i % 24) / 12) * Math.PI),
        );
        const weather = airOf(air);
        const year = frostGuard(
          electric,
          losing2(capacity_Wh_m2K),
          loopOf({ heat_kW_per_m2: noons }),
          weather,
        );
        const days = 6;
        let loop_C = Math.max(air[0]!, 5);
        let heating = 0;
        const step_h = 10 / 3600;
        for (let i = 0; i < 24 * days; i += 1)
          for (let s = 0; s < 360; s += 1) {
            if (noons[i]! > 0) loop_C = 85;
            else loop_C -= (2 * (loop_C - air[i]!) * step_h) / capacity_Wh_m2K;
            if (loop_C < 5) {
              heating += (5 - loop_C) * capacity_Wh_m2K;
              loop_C = 5;
            }
          }
        const closed = 1000 * sum(year.heating_kW_per_m2.slice(0, 24 * days));
        expect(Math.abs(closed - heating)).toBeLessThan(0.01 * heating + 0.5);
      }),
      { numRuns: 15 },
    );
  });
});

describe("frostGuard, by draining", () => {
  it("loses the sun of the hours in which it is filled again, once for each night that empties it", () => {
    const heat_kW_per_m2 = Float64Array.from({ length: hoursPerYear }, (_, i) =>
      i % 24 === 11 ? 0.1 : i % 24 === 12 ? 0.4 : i % 24 === 13 ? 0.3 : 0,
    );
    const drain = (refill_h?: number) =>
      frostGuard(
        { by: "drain", keepAbove_C: 5, ...(refill_h === undefined ? {} : { refill_h }) },
        losing2(2),
        loopOf({ heat_kW_per_m2 }),
        airOf(-10),
      );
    const once = drain();
    expectClose(once.refill_kWh_per_m2, 365 * 0.1, 1e-9);
    // The last night of the year and every one before; the year begins drained.
    expect(once.drainings).toBe(365);
    expect(once.refillHours).toBe(365);
    expect(once.heating_kWh_per_m2).toBe(0);
    expectClose(drain(2).refill_kWh_per_m2, 365 * 0.5, 1e-9);
    expect(drain(0).yield_kW_per_m2).toEqual(heat_kW_per_m2);
    expectClose(sum(once.yield_kW_per_m2) + once.refill_kWh_per_m2, sum(heat_kW_per_m2), 1e-12);
  });

  it("fills anew where a filling was broken off by another frost, and not where the night was mild", () => {
    const heat_kW_per_m2 = new Float64Array(hoursPerYear);
    heat_kW_per_m2[12] = 0.1;
    heat_kW_per_m2[36] = 0.2;
    heat_kW_per_m2[37] = 0.3;
    const drain = { by: "drain", keepAbove_C: 5, refill_h: 2 } as const;
    const frosty = frostGuard(drain, losing2(2), loopOf({ heat_kW_per_m2 }), airOf(-10));
    expectClose(frosty.refill_kWh_per_m2, 0.6, 1e-12);
    const mild = airOf(Float64Array.from({ length: hoursPerYear }, (_, i) => (i < 12 ? -10 : 8)));
    expectClose(
      frostGuard(drain, losing2(2), loopOf({ heat_kW_per_m2 }), mild).refill_kWh_per_m2,
      0.1 + 0.2,
      1e-12,
    );
  });
});

describe("a collector with frost protection", () => {
  const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: madeWeather(700, -6) };
  const at = [{ collectorIn_C: 70, collectorOut_C: 90 }];
  const plate = (changes: Partial<Collector>) =>
    collectorYear(ofRecord("flat-plate", changes), climate, at).levels[0]!;

  it("draws the electricity on top of what runs it, and yields the same", () => {
    const without = plate({});
    const heated = plate({ frost: electric });
    expect(without.frost).toBeNull();
    expect(heated.yield_kW_per_m2).toEqual(without.yield_kW_per_m2);
    expect(heated.frost!.heating_kWh_per_m2).toBeGreaterThan(10);
    expectClose(
      heated.parasitic_kWh_per_m2 - without.parasitic_kWh_per_m2,
      heated.frost!.heating_kWh_per_m2,
      1e-12,
    );
    expectClose(sum(heated.parasitic_kW_per_m2), heated.parasitic_kWh_per_m2, 1e-9);
  });

  it("loses heat to filling where it is drained, and draws no more", () => {
    const without = plate({});
    const drained = plate({ frost: { by: "drain", keepAbove_C: 3 } });
    expect(drained.frost!.drainings).toBeGreaterThan(0);
    expect(drained.losses.frost).toBeGreaterThan(0);
    expectClose(drained.useful_kWh_per_m2, without.useful_kWh_per_m2 - drained.losses.frost, 1e-12);
    expectClose(sum(drained.yield_kW_per_m2), drained.useful_kWh_per_m2, 1e-9);
    expect(drained.runningHours).toBe(drained.yield_kW_per_m2.filter((kW) => kW > 0).length);
    expect(drained.parasitic_kWh_per_m2).toBe(without.parasitic_kWh_per_m2);
  });

  it("keeps salt liquid through the night where the air never freezes", () => {
    const warm = { ...climate, weather: madeWeather(900, 30) };
    const dish = { ...perfect({ type: "two-axes" }), heatLoss: losing2(0).heatLoss };
    const salt = collectorYear({ ...dish, frost: { by: "electric", keepAbove_C: 260 } }, warm, [
      { collectorIn_C: 290, collectorOut_C: 390 },
    ]).levels[0]!;
    const dark = climate.sun.up.filter((up) => up <= 0).length;
    expect(salt.frost!.heating_kWh_per_m2).toBeGreaterThanOrEqual((dark * 2 * 230) / 1000 - 1e-6);
  });
});
