import { describe, expect, it } from "vitest";
import { sum } from "../../../src/core/series.ts";
import { clearestTurbidity, clearSkyYear } from "../../../src/core/sun/clear-sky.ts";
import { dailyClearness } from "../../../src/core/sun/daily-clearness.ts";
import {
  extraterrestrialHorizontal_W_m2,
  sunsetHourAngle_deg,
} from "../../../src/core/sun/extraterrestrial.ts";
import { monthStarts } from "../../../src/core/sun/monthly-means.ts";
import { aim } from "../../../src/core/sun/mounts.ts";
import { isotropicPlane } from "../../../src/core/sun/radiation.ts";
import { randomStream } from "../../../src/core/sun/random.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import { type MonthlyMeans, syntheticYear } from "../../../src/core/sun/synthetic-year.ts";
import { aboveTheAir_kWh_m2, monthNames } from "../../../src/formats/weather/means-cells.ts";
import { monthOnPlane, monthUtilizability } from "../../support/handbook-sky.ts";

const site = { latitude_deg: 43, longitude_deg: -90, elevation_m: 270, utcOffset_h: -6, calendarYear: 2026 };
const sun = sunYear(site);
const above = extraterrestrialHorizontal_W_m2(sun, site.latitude_deg);
const twelve = (value: number) => new Array<number>(12).fill(value);
const meansOf = (clearness: number[]): MonthlyMeans => ({
  clearness,
  ambient_C: [-8, -6, 1, 8, 14, 20, 22, 21, 17, 10, 3, -5],
  dailySwing_K: twelve(10),
  humidity_share: twelve(0.7),
  wind_m_s: twelve(4),
});
const seeds = Array.from({ length: 12 }, (_, i) => i + 1);

/** Clearness of the 365 days. */
function dayClearness(ghi_W_m2: Float64Array): number[] {
  return Array.from({ length: 365 }, (_, day) => {
    const span = [day * 24, day * 24 + 24] as const;
    return sum(ghi_W_m2.subarray(...span)) / sum(above.subarray(...span));
  });
}

function correlation(pairs: readonly (readonly [number, number])[]): number {
  const n = pairs.length;
  const [a, b] = [0, 1].map((i) => pairs.reduce((all, pair) => all + pair[i]!, 0) / n) as [number, number];
  let [ab, aa, bb] = [0, 0, 0];
  for (const [x, y] of pairs) {
    ab += (x - a) * (y - b);
    aa += (x - a) ** 2;
    bb += (y - b) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

describe("a year made from monthly means", () => {
  it("gives the month's irradiation back to a thousandth", () => {
    const clearness = [0.44, 0.5, 0.5, 0.48, 0.52, 0.55, 0.56, 0.55, 0.5, 0.48, 0.4, 0.4];
    const year = syntheticYear(site, meansOf(clearness), 3);
    aboveTheAir_kWh_m2(site).forEach((perDay, month) => {
      const span = year.ghi_W_m2.subarray(monthStarts[month]!, monthStarts[month + 1]!);
      const wanted = clearness[month]! * perDay * (span.length / 24);
      expect(Math.abs(sum(span) / 1000 / wanted - 1)).toBeLessThan(0.001);
    });
  });

  // Generalised curves of Liu & Jordan 1960 (D&B fig. 2.9.1) as tabulated at 0.1 steps of the share of days for
  // mean clearness 0.5 — read from the figure, from memory, unsure — are matched by the equation of Bendt et al.
  // (D&B eq. 2.9.6), which is what is dealt out; here the days of the finished year are held against the equation.
  it("has the days of the published distribution of daily clearness", () => {
    for (const mean of [0.4, 0.5, 0.6]) {
      const days = seeds.flatMap((seed) =>
        dayClearness(syntheticYear(site, meansOf(twelve(mean)), seed).ghi_W_m2),
      );
      const most = 0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8;
      const xi = (most - 0.05) / (most - mean);
      const gamma = -1.498 + (1.184 * xi - 27.182 * Math.exp(-1.5 * xi)) / (most - 0.05);
      for (const k of [0.2, 0.3, 0.4, 0.5, 0.6, 0.7]) {
        if (k >= most) continue;
        const published =
          (Math.exp(gamma * 0.05) - Math.exp(gamma * k)) / (Math.exp(gamma * 0.05) - Math.exp(gamma * most));
        const share = days.filter((day) => day <= k).length / days.length;
        expect(Math.abs(share - published), `${mean}, ${k}: ${share} and ${published}`).toBeLessThan(0.03);
      }
    }
  });

  // Lag-one correlation 0.29 of the normal sequence: Graham, Hollands & Brunger 1988 (from memory). Ranking within
  // months and the break between them lower it; 12 · 12 · 29 pairs have a standard error of 0.015.
  it("has clear days that follow clear days as the published sequence does, within a month", () => {
    const pairs = seeds.flatMap((seed) => {
      const random = randomStream(seed);
      return monthNames.flatMap(() => {
        const days = dailyClearness(0.5, 30, random);
        return Array.from({ length: 29 }, (_, day) => [days[day]!, days[day + 1]!] as const);
      });
    });
    const found = correlation(pairs);
    expect(found).toBeGreaterThan(0.2);
    expect(found).toBeLessThan(0.31);
  });

  // Hour to hour 0.38 + 0.06·cos(7.4 K − 2.5), 0.32 to 0.44: Aguiar & Collares-Pereira 1992 (from memory), of the
  // departure from the day's mean course. Scaling to the day's sum takes some of it away (fewer hours, one sum).
  it("has hours that depart from the day's course with a like neighbour", () => {
    const pairs = seeds.slice(0, 4).flatMap((seed) => {
      const { ghi_W_m2 } = syntheticYear(site, meansOf(twelve(0.5)), seed);
      const days = dayClearness(ghi_W_m2);
      const departure = (t: number) => {
        const day = days[Math.floor(t / 24)]!;
        const past60 = ((sunsetHourAngle_deg(43, sun.declination_deg[t]!) - 60) * Math.PI) / 180;
        const a = 0.409 + 0.5016 * Math.sin(past60);
        const b = 0.6609 - 0.4767 * Math.sin(past60);
        const course = day * (a + b * Math.cos((sun.hourAngle_deg[t]! * Math.PI) / 180));
        return ghi_W_m2[t]! / above[t]! - course;
      };
      return Array.from(above.keys())
        .filter((t) => sun.up[t]! > 0.3 && (sun.up[t + 1] ?? 0) > 0.3)
        .map((t) => [departure(t), departure(t + 1)] as const);
    });
    const found = correlation(pairs);
    expect(found).toBeGreaterThan(0.15);
    expect(found).toBeLessThan(0.44);
  });

  // The published monthly method (D&B eq. 2.19.1 with Erbs's monthly share) against the program's own hours. They
  // disagree for known reasons, so the bounds are of two kinds: from March to September within 5 %; in winter the hours
  // give up to 13 % less, since the hourly Erbs curve knows no season (the monthly one has more beam under low suns)
  // and since real beam is stronger at noon, when a steep plane gains least, while R̄b takes all hours as equally clear.
  it("has the tilted irradiation of the monthly method, by hours, to 5 % in summer, and less in winter", () => {
    const clearness = [0.44, 0.5, 0.5, 0.48, 0.52, 0.55, 0.56, 0.55, 0.5, 0.48, 0.4, 0.4];
    const plane = { type: "fixed", tilt_deg: 45, azimuth_deg: 180 } as const;
    const { cosIncidence } = aim(sun, plane, site.latitude_deg);
    const hourly = new Float64Array(12);
    for (const seed of seeds) {
      const year = syntheticYear(site, meansOf(clearness), seed);
      for (let month = 0; month < 12; month += 1)
        for (let t = monthStarts[month]!; t < monthStarts[month + 1]!; t += 1) {
          const light = {
            ghi_W_m2: year.ghi_W_m2[t]!,
            dni_W_m2: year.dni_W_m2[t]!,
            dhi_W_m2: year.dhi_W_m2[t]!,
          };
          const part = isotropicPlane(light, cosIncidence[t]!, 45, 0.2);
          hourly[month]! += (part.beam_W_m2 + part.sky_W_m2 + part.ground_W_m2) / 1000 / seeds.length;
        }
    }
    aboveTheAir_kWh_m2(site).forEach((perDay, month) => {
      const days = (monthStarts[month + 1]! - monthStarts[month]!) / 24;
      const noon = (monthStarts[month]! + monthStarts[month + 1]!) / 2 + 12 - (days % 2 === 0 ? 0 : 12);
      const declination_deg = sun.declination_deg[noon]!;
      const { onPlane } = monthOnPlane({
        ...{ latitude_deg: 43, declination_deg, tilt_deg: 45, albedo: 0.2 },
        ...{ global: clearness[month]! * perDay, above: perDay },
        sunset_deg: sunsetHourAngle_deg(43, declination_deg),
      });
      const ratio = hourly[month]! / days / onPlane;
      const isWinter = month < 2 || month > 8;
      expect(ratio, monthNames[month]).toBeGreaterThan(isWinter ? 0.87 : 0.95);
      expect(ratio, monthNames[month]).toBeLessThan(isWinter ? 1 : 1.05);
    });
  });

  // Daily utilizability (Klein 1978) against the same share by the program's hours. Its correlation was fitted to years
  // made in the same way, with a stated standard error of some 3 to 5 % (from memory); summer half, two critical levels.
  it("has the light above a critical level that Klein's curve says, from March to September", () => {
    const plane = { type: "fixed", tilt_deg: 45, azimuth_deg: 180 } as const;
    const { cosIncidence } = aim(sun, plane, site.latitude_deg);
    const total = new Float64Array(12);
    const levels = [150, 350].map((critical_W_m2) => ({ critical_W_m2, above: new Float64Array(12) }));
    for (const seed of seeds) {
      const year = syntheticYear(site, meansOf(twelve(0.5)), seed);
      for (let month = 2; month < 9; month += 1)
        for (let t = monthStarts[month]!; t < monthStarts[month + 1]!; t += 1) {
          const light = {
            ghi_W_m2: year.ghi_W_m2[t]!,
            dni_W_m2: year.dni_W_m2[t]!,
            dhi_W_m2: year.dhi_W_m2[t]!,
          };
          const part = isotropicPlane(light, cosIncidence[t]!, 45, 0.2);
          const onPlane = part.beam_W_m2 + part.sky_W_m2 + part.ground_W_m2;
          total[month]! += onPlane;
          for (const { critical_W_m2, above } of levels)
            above[month]! += Math.max(0, onPlane - critical_W_m2);
        }
    }
    aboveTheAir_kWh_m2(site).forEach((perDay, month) => {
      if (month < 2 || month > 8) return;
      const noon = Math.floor((monthStarts[month]! + monthStarts[month + 1]!) / 48) * 24 + 12;
      const declination_deg = sun.declination_deg[noon]!;
      for (const { critical_W_m2, above } of levels) {
        const { share } = monthUtilizability(
          {
            ...{ latitude_deg: 43, declination_deg, tilt_deg: 45, albedo: 0.2 },
            ...{ global: 500 * perDay, above: 1000 * perDay },
            sunset_deg: sunsetHourAngle_deg(43, declination_deg),
          },
          critical_W_m2,
        );
        const byHours = above[month]! / total[month]!;
        expect(Math.abs(byHours - share), `${monthNames[month]}, ${critical_W_m2}`).toBeLessThan(0.03);
      }
    });
  });

  it("lies under the cloudless year in beam, hour by hour, and in the global light of the year", () => {
    const year = syntheticYear(site, meansOf(twelve(0.6)), 5);
    const clear = clearSkyYear(sun, year, clearestTurbidity);
    expect(clear.madeFrom).toBe("clear-sky");
    expect(clear.wind_m_s).toBe(year.wind_m_s);
    for (let t = 0; t < 8760; t += 1) {
      expect(year.dni_W_m2[t]!).toBeLessThanOrEqual(clear.dni_W_m2[t]! + 1e-9);
      const closed = clear.ghi_W_m2[t]! - clear.dhi_W_m2[t]! - clear.dni_W_m2[t]! * sun.up[t]!;
      expect(Math.abs(closed)).toBeLessThan(1e-9);
    }
    // Not day by day: the published distribution of clearness knows no season, and the clearest winter days pass it.
    expect(sum(year.ghi_W_m2)).toBeLessThan(sum(clear.ghi_W_m2));
  });
});
