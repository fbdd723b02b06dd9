import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { monthLength_days } from "../../../src/core/calendar.ts";
import { sum } from "../../../src/core/series.ts";
import { clearestDay, clearnessQuantile, dailyClearness } from "../../../src/core/sun/daily-clearness.ts";
import { extraterrestrialDay_J_m2 } from "../../../src/core/sun/extraterrestrial.ts";
import { fillToTotal } from "../../../src/core/sun/fill-to-total.ts";
import { monthlyMeans, monthStarts, movedToMeans } from "../../../src/core/sun/monthly-means.ts";
import { clearBeam_W_m2 } from "../../../src/core/sun/radiation.ts";
import { randomStream, xoshiro128ss } from "../../../src/core/sun/random.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import { type MonthlyMeans, syntheticYear } from "../../../src/core/sun/synthetic-year.ts";
import { closureOf, weatherFigures } from "../../../src/core/sun/weather-figures.ts";
import { expectClose } from "../../support/close.ts";

const dry = { latitude_deg: 25, longitude_deg: 52, elevation_m: 20, utcOffset_h: 3, calendarYear: 2026 };
const dryMeans: MonthlyMeans = {
  clearness: [0.58, 0.6, 0.6, 0.6, 0.65, 0.68, 0.65, 0.65, 0.66, 0.66, 0.62, 0.57],
  ambient_C: [17, 18, 21.5, 26, 31.5, 34.5, 35.5, 35, 32.5, 29, 24, 19],
  dailySwing_K: [9, 9, 10, 11, 12, 12, 11, 10, 11, 10, 9, 8],
  humidity_share: [0.7, 0.68, 0.6, 0.52, 0.44, 0.45, 0.5, 0.58, 0.6, 0.62, 0.65, 0.71],
  wind_m_s: [3.8, 4.2, 4.3, 4.1, 4.3, 4.8, 4.2, 4, 3.5, 3.3, 3.5, 3.7],
};
const dull = { latitude_deg: 60, longitude_deg: 10, elevation_m: 300, utcOffset_h: 1, calendarYear: 2028 };
const dullMeans: MonthlyMeans = {
  ...dryMeans,
  clearness: [0.32, 0.38, 0.42, 0.45, 0.48, 0.48, 0.45, 0.45, 0.42, 0.36, 0.32, 0.28],
  ambient_C: [-6, -5, -1, 4, 11, 15, 17, 15.5, 11, 5, 0, -4],
};
const cases = [
  ["dry", dry, dryMeans],
  ["dull", dull, dullMeans],
] as const;

describe("syntheticYear(site, means, seed)", () => {
  it.each(cases)("keeps each month's clearness to 1 %% of the handbook's H0: %s", (_, site, means) => {
    const year = syntheticYear(site, means, 7);
    const sun = sunYear(site);
    for (let month = 0; month < 12; month += 1) {
      let above_J = 0; // D&B eq. 1.10.3 day by day
      for (let day = monthStarts[month]! / 24; day < monthStarts[month + 1]! / 24; day += 1) {
        const noon = day * 24 + 12;
        above_J += extraterrestrialDay_J_m2(
          sun.extraterrestrialNormal_W_m2[noon]!,
          site.latitude_deg,
          sun.declination_deg[noon]!,
        );
      }
      const global_J = sum(year.ghi_W_m2.slice(monthStarts[month]!, monthStarts[month + 1]!)) * 3600;
      expectClose(global_J / above_J / means.clearness[month]!, 1, 0.01);
    }
  });

  it.each(cases)(
    "closes hour by hour, is dark at night and has no beam above the clear-sky bound: %s",
    (_, site, means) => {
      const year = syntheticYear(site, means, 11);
      const sun = sunYear(site);
      for (let t = 0; t < 8760; t += 1) {
        const [ghi, dni, dhi] = [year.ghi_W_m2[t]!, year.dni_W_m2[t]!, year.dhi_W_m2[t]!];
        if (sun.sunlitShare[t] === 0) {
          expect(ghi + dni + dhi).toBe(0);
          continue;
        }
        expect(Math.abs(ghi - dhi - dni * sun.up[t]!)).toBeLessThanOrEqual(0.0501);
        expect(Math.min(ghi, dni, dhi)).toBeGreaterThanOrEqual(0);
        const bound = clearBeam_W_m2(
          sun.extraterrestrialNormal_W_m2[t]!,
          sun.zenith_deg[t]!,
          year.pressure_Pa[t]!,
          2,
        );
        expect(dni).toBeLessThanOrEqual(bound * sun.sunlitShare[t]!);
      }
      expect(closureOf(year, sun).meanAbsolute_W_m2).toBeLessThan(0.05);
    },
  );

  it.each(cases)("keeps the monthly means of temperature, humidity and wind: %s", (_, site, means) => {
    const year = syntheticYear(site, means, 3);
    const near = (series: Float64Array, wanted: readonly number[], tolerance: number) =>
      monthlyMeans(series).forEach((mean, month) => {
        expect(Math.abs(mean - wanted[month]!)).toBeLessThan(tolerance);
      });
    near(year.ambient_C, means.ambient_C, 0.02);
    near(year.humidity_share, means.humidity_share, 0.01);
    near(year.wind_m_s, means.wind_m_s, 0.02);
    for (const share of year.humidity_share) expect(share).toSatisfy((x: number) => x >= 0.05 && x <= 1);
    for (const wind of year.wind_m_s) expect(wind).toBeGreaterThanOrEqual(0);
  });

  it("warms the afternoon about as much as asked", () => {
    const year = syntheticYear(dry, dryMeans, 5);
    let swing = 0;
    for (let day = 0; day < 365; day += 1) {
      const hours = year.ambient_C.slice(day * 24, day * 24 + 24);
      swing += (Math.max(...hours) - Math.min(...hours)) / 365;
    }
    const wanted = sum(Float64Array.from(dryMeans.dailySwing_K)) / 12;
    expect(Math.abs(swing / wanted - 1)).toBeLessThan(0.15);
  });

  it("has a wind like Rayleigh's, and storms", () => {
    const year = syntheticYear(dry, dryMeans, 5);
    const figures = weatherFigures(year, sunYear(dry), 8);
    // Share above twice the mean: exp(-pi) = 4.3 % (Rayleigh), more with seasons and daily swing.
    expect(figures.hoursAboveWind / 8760).toBeGreaterThan(0.02);
    expect(figures.hoursAboveWind / 8760).toBeLessThan(0.09);
    expect(figures.highestWind_m_s).toBeGreaterThan(13);
    expect(figures.highestWind_m_s).toBeLessThan(30);
  });

  it("gives the same year for the same seed, another for another", () => {
    const once = syntheticYear(dry, dryMeans, 1);
    expect(syntheticYear(dry, dryMeans, 1)).toEqual(once);
    const other = syntheticYear(dry, dryMeans, 2);
    expect(other.dni_W_m2).not.toEqual(once.dni_W_m2);
    for (const key of ["ghi_W_m2", "dni_W_m2", "dhi_W_m2", "ambient_C", "wind_m_s"] as const) {
      for (const value of once[key]) expect(value).toBe(Math.round(value * 10) / 10);
    }
  });

  it("refuses means that no weather has", () => {
    expect(() => syntheticYear(dry, { ...dryMeans, clearness: Array(12).fill(0.9) }, 1)).toThrow(
      /OUT_OF_RANGE/,
    );
    expect(() => syntheticYear(dry, { ...dryMeans, wind_m_s: Array(12).fill(Number.NaN) }, 1)).toThrow(
      /OUT_OF_RANGE/,
    );
    expect(() => syntheticYear(dry, { ...dryMeans, ambient_C: [1, 2] }, 1)).toThrow(/SERIES_LENGTH/);
  });

  it("lives through polar night", () => {
    const far = { ...dull, latitude_deg: 75 };
    const year = syntheticYear(far, dullMeans, 4);
    expect(sum(year.ghi_W_m2.slice(8200, 8700))).toBe(0);
    for (const value of year.ghi_W_m2) expect(Number.isFinite(value)).toBe(true);
  });
});

describe("dailyClearness(mean, days, random)", () => {
  it("has the wanted mean and stays within the distribution's ends", () => {
    for (const mean of [0.3, 0.4, 0.5, 0.6, 0.7]) {
      const days = dailyClearness(mean, 30, randomStream(9));
      // Herzog's shape gives the mean back to about 0.02 (D&B fig. 2.9.2 covers 0.3 to 0.7).
      expect(Math.abs(sum(days) / 30 - mean)).toBeLessThan(0.02);
      for (const k of days) expect(k).toSatisfy((x: number) => x > 0.05 && x < clearestDay(mean));
    }
  });
  it("rises with the share of days", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.8, noNaN: true }),
        fc.double({ min: 0, max: 0.98, noNaN: true }),
        (mean, f) => {
          expect(clearnessQuantile(mean, f)).toBeLessThan(clearnessQuantile(mean, f + 0.02));
          expectClose(clearnessQuantile(mean, 0), 0.05, 1e-9);
          expectClose(clearnessQuantile(mean, 1), clearestDay(mean), 1e-9);
        },
      ),
    );
  });
});

describe("fillToTotal(shares, weights, total, cap)", () => {
  it("meets the total wherever the cap allows it", () => {
    const item = fc.tuple(
      fc.double({ min: 0.01, max: 1, noNaN: true }),
      fc.double({ min: 0.1, max: 10, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.array(item, { minLength: 1, maxLength: 20 }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (items, level) => {
          const shares = Float64Array.from(items, (x) => x[0]);
          const weights = Float64Array.from(items, (x) => x[1]);
          const wanted = level * 0.85 * sum(weights);
          const filled = fillToTotal(shares, weights, wanted, 0.85);
          expectClose(filled.reduce((t, x, i) => t + x * weights[i]!, 0) / wanted, 1, 1e-9);
          for (const share of filled) expect(share).toBeLessThanOrEqual(0.85 + 1e-12);
        },
      ),
    );
  });
});

describe("random numbers", () => {
  // xoshiro128** from state 1, 2, 3, 4: first outputs of the authors' C code (from memory; the first two are
  // checked by hand: rotl(2·5, 7)·9 = 11520; state word 0 gives 0).
  it("follow the published generator", () => {
    const stream = xoshiro128ss([1, 2, 3, 4]);
    expect([stream.bits(), stream.bits(), stream.bits(), stream.bits()]).toEqual([
      11520, 0, 5927040, 70819200,
    ]);
  });
  it("are even, normal and free of memory", () => {
    const stream = randomStream(123);
    const n = 100_000;
    let mean = 0,
      square = 0,
      lag = 0,
      last = 0,
      even = 0;
    for (let i = 0; i < n; i += 1) {
      const x = stream.normal();
      mean += x / n;
      square += (x * x) / n;
      lag += (x * last) / n;
      last = x;
      even += stream.uniform() / n;
    }
    // five standard errors
    expect(Math.abs(mean)).toBeLessThan(5 / Math.sqrt(n));
    expect(Math.abs(square - 1)).toBeLessThan((5 * Math.SQRT2) / Math.sqrt(n));
    expect(Math.abs(lag)).toBeLessThan(5 / Math.sqrt(n));
    expect(Math.abs(even - 0.5)).toBeLessThan(5 / Math.sqrt(12 * n));
  });
});

describe("movedToMeans(series, means)", () => {
  it("gives each month its mean without a step between months", () => {
    const means = dryMeans.ambient_C;
    const moved = movedToMeans(new Float64Array(8760), means);
    monthlyMeans(moved).forEach((mean, month) => {
      expectClose(mean, means[month]!, 1e-6);
    });
    for (let t = 1; t < 8760; t += 1) expect(Math.abs(moved[t]! - moved[t - 1]!)).toBeLessThan(0.03);
    expect(monthLength_days(2)).toBe(28);
  });
});

describe("weatherFigures(weather, sun, windLimit)", () => {
  it("adds up the year, and sees a clock that is an hour off", () => {
    const year = syntheticYear(dry, dryMeans, 1);
    const right = weatherFigures(year, sunYear(dry), 10);
    expectClose(right.ghi_kWh_m2, sum(year.ghi_W_m2) / 1000, 1e-12);
    expect(right.nightLight_h).toBe(0);
    const shifted = weatherFigures(year, sunYear({ ...dry, utcOffset_h: 4 }), 10);
    expect(shifted.closure.meanAbsolute_W_m2).toBeGreaterThan(40);
    expect(shifted.nightLight_h).toBeGreaterThan(100);
  });
});
