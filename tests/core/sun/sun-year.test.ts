import { Body, Equator, Horizon, MakeTime, Observer, SearchRiseSet } from "astronomy-engine";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hourStart_ms } from "../../../src/core/calendar.ts";
import { sum } from "../../../src/core/series.ts";
import { deltaT_s } from "../../../src/core/sun/delta-t.ts";
import { byGrena } from "../../../src/core/sun/fast-sun.ts";
import { litPart } from "../../../src/core/sun/lit-part.ts";
import { solarPosition } from "../../../src/core/sun/solar-position.ts";
import { bySpa } from "../../../src/core/sun/sun-source.ts";
import { type SunYear, sunYear, sunYearBySpa } from "../../../src/core/sun/sun-year.ts";
import { expectClose } from "../../support/close.ts";
import { evenly } from "../../support/evenly.ts";

const rad = Math.PI / 180;
const site = (latitude_deg: number, longitude_deg: number, utcOffset_h: number, calendarYear: number) => ({
  latitude_deg,
  longitude_deg,
  utcOffset_h,
  calendarYear,
  elevation_m: 0,
  timeZone: "Etc/UTC",
});

/** Angle between the two suns of one hour; both arrays hold unit vectors. */
function apart_deg(one: SunYear, other: SunYear, hour: number): number {
  return (
    Math.hypot(
      one.east[hour]! - other.east[hour]!,
      one.north[hour]! - other.north[hour]!,
      one.up[hour]! - other.up[hour]!,
    ) / rad
  );
}

describe("byGrena against the Solar Position Algorithm", () => {
  const toSun = ({ declination_deg, greenwichHourAngle_deg }: ReturnType<typeof bySpa>) => [
    Math.cos(declination_deg * rad) * Math.cos(greenwichHourAngle_deg * rad),
    Math.cos(declination_deg * rad) * Math.sin(greenwichHourAngle_deg * rad),
    Math.sin(declination_deg * rad),
  ];
  const gap = (instant_ms: number) => {
    const deltaT = deltaT_s(new Date(instant_ms).getUTCFullYear() + 0.5);
    const fast = byGrena(instant_ms, deltaT);
    const full = bySpa(instant_ms, deltaT);
    const [a, b] = [toSun(fast), toSun(full)];
    return {
      apart_deg: Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!) / rad,
      distance_AU: Math.abs(fast.distance_AU - full.distance_AU),
    };
  };
  const instants = (from: number, to: number) =>
    fc.integer({ min: Date.UTC(from, 0, 1), max: Date.UTC(to, 0, 1) });

  // Grena 2012 states 0.0027 degrees for algorithm 5, 2010 to 2110.
  it("points the same way within the paper's 0.0027 degrees from 2010 to 2101", () => {
    fc.assert(
      fc.property(instants(2010, 2101), (instant) => gap(instant).apart_deg <= 0.0027),
      { numRuns: 4000 },
    );
  });

  it("points the same way within 0.005 degrees from 1970 on, before the years of the paper", () => {
    fc.assert(
      fc.property(instants(1970, 2010), (instant) => gap(instant).apart_deg <= 0.005),
      { numRuns: 4000 },
    );
  });

  it("has the same distance within a ten-thousandth", () => {
    fc.assert(
      fc.property(instants(1970, 2101), (instant) => gap(instant).distance_AU <= 1e-4),
      { numRuns: 2000 },
    );
  });
});

describe("sunYear(site) against sunYearBySpa(site)", () => {
  it("points the same way within 0.01 degrees in any hour from 2000 to 2060, pole to equator", () => {
    let compared = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 2000, max: 2060 }),
        evenly(-90, 90),
        evenly(-180, 180),
        (calendarYear, latitude, longitude) => {
          const place = site(latitude, longitude, Math.round(longitude / 15), calendarYear);
          const fast = sunYear(place);
          const full = sunYearBySpa(place);
          for (let hour = 0; hour < 8760; hour += 1) {
            if (Math.abs(latitude) < 60) {
              expect(Math.abs(fast.sunlitShare[hour]! - full.sunlitShare[hour]!)).toBeLessThan(0.001);
            }
            if (fast.sunlitShare[hour] !== 1 || full.sunlitShare[hour] !== 1) continue;
            expect(apart_deg(fast, full, hour)).toBeLessThan(0.01);
            compared += 1;
          }
          // At the pole the sun climbs by 0.016 degrees an hour, so its rise and its set may move by an hour.
          expect(Math.abs(sum(fast.sunlitShare) - sum(full.sunlitShare))).toBeLessThan(2);
        },
      ),
      {
        numRuns: 12,
        examples: [
          [2000, 90, 0],
          [2060, -90, 0],
          [2033, 0, 100],
          [2012, 66.5, 25],
        ],
      },
    );
    expect(compared).toBeGreaterThan(20_000);
  });

  it("is, by SPA, the full algorithm at mid-hour, 1970 to 2100, pole to equator", () => {
    let compared = 0;
    for (const calendarYear of [1970, 2012, 2026, 2060, 2100]) {
      for (const latitude_deg of [-90, -35, -0.1, 48, 66.6, 90]) {
        const longitude_deg = ((calendarYear * 77 + latitude_deg * 13) % 360) - 180;
        const place = site(latitude_deg, longitude_deg, 5.75, calendarYear);
        const year = sunYearBySpa(place);
        for (let hour = 0; hour < 8760; hour += 37) {
          if (year.sunlitShare[hour] !== 1) continue;
          const full = solarPosition(hourStart_ms(place, hour) + 1_800_000, {
            ...place,
            pressure_mbar: 0,
            ambient_C: 10,
            deltaT_s: deltaT_s(calendarYear + 0.5),
          });
          const z = (90 - full.geometricElevation_deg) * rad;
          const a = full.azimuth_deg * rad;
          // The earth is a sphere in sunYear's parallax, an ellipsoid in the report's: 1e-5 degrees.
          expect(
            Math.hypot(
              Math.sin(z) * Math.sin(a) - year.east[hour]!,
              Math.sin(z) * Math.cos(a) - year.north[hour]!,
              Math.cos(z) - year.up[hour]!,
            ) / rad,
          ).toBeLessThan(1e-4);
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(2500);
  });
});

describe("sunYear(site) against astronomy-engine", () => {
  // A general astronomy library with its own series and nutation.
  it("points the same way within 0.01 degrees over ten years, pole to equator", () => {
    let compared = 0;
    for (let calendarYear = 2020; calendarYear < 2030; calendarYear += 1) {
      for (const latitude_deg of [-90, -60, -25, 0, 12, 38, 55, 72, 90]) {
        const longitude_deg = ((calendarYear * 53 + latitude_deg * 7) % 360) - 180;
        const place = site(latitude_deg, longitude_deg, 0, calendarYear);
        const year = sunYear(place);
        const observer = new Observer(latitude_deg, longitude_deg, 0);
        for (let hour = calendarYear % 7; hour < 8760; hour += 31) {
          if (year.sunlitShare[hour] !== 1) continue;
          const time = MakeTime(new Date(hourStart_ms(place, hour) + 1_800_000));
          const seen = Equator(Body.Sun, time, observer, true, true);
          const other = Horizon(time, observer, seen.ra, seen.dec);
          const height = other.altitude * rad;
          const azimuth = other.azimuth * rad;
          const gap = Math.hypot(
            Math.cos(height) * Math.sin(azimuth) - year.east[hour]!,
            Math.cos(height) * Math.cos(azimuth) - year.north[hour]!,
            Math.sin(height) - year.up[hour]!,
          );
          expect(gap / rad).toBeLessThan(0.01);
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(10_000);
  });
});

describe("the lit hours of sunYear(site)", () => {
  it("lights hours between the rise and set that astronomy-engine finds for the sun's centre", () => {
    // -0.833 degrees is the library's horizon; it is asked by altitude of the upper limb, so the day lengths
    // are compared over the year: centre and no refraction shorten a day at latitude 40 by 7 to 11 minutes.
    const place = site(40, 20, 1, 2026);
    const year = sunYear(place);
    for (const day of [20, 100, 172, 260, 355]) {
      const lit_h = sum(year.sunlitShare.slice(day * 24, day * 24 + 24));
      const start = MakeTime(new Date(hourStart_ms(place, day * 24)));
      const observer = new Observer(40, 20, 0);
      const rise = SearchRiseSet(Body.Sun, observer, +1, start, 1)!;
      const set = SearchRiseSet(Body.Sun, observer, -1, start, 1)!;
      const longer_min = ((set.ut - rise.ut) * 24 - lit_h) * 60;
      expect(longer_min).toBeGreaterThan(7);
      expect(longer_min).toBeLessThan(12.5);
    }
  });

  it("begins and ends the lit part where the full algorithm has the sun's centre on the horizon", () => {
    for (const [latitude, longitude, zone] of [
      [40, 20, 1],
      [-33, 151, 10],
      [64, -160, -9],
      [0, 100, 7],
    ] as const) {
      const place = site(latitude, longitude, zone, 2028);
      for (const year of [sunYear(place), sunYearBySpa(place)]) {
        let checked = 0;
        for (let hour = 1; hour < 8759; hour += 1) {
          const share = year.sunlitShare[hour]!;
          if (!(share > 0 && share < 1) || year.sunlitShare[hour - 1] !== 0) continue;
          const sunrise = hourStart_ms(place, hour) + (1 - share) * 3_600_000;
          const full = solarPosition(sunrise, {
            ...place,
            pressure_mbar: 0,
            ambient_C: 0,
            deltaT_s: deltaT_s(2028.5),
          });
          expect(Math.abs(full.geometricElevation_deg)).toBeLessThan(0.01);
          checked += 1;
        }
        expect(checked).toBeGreaterThan(300);
      }
    }
  });

  it("gives unit vectors where the sun is up, zeros and NaN where it is down", () => {
    const year = sunYear(site(52, 5, 1, 2027));
    for (let hour = 0; hour < 8760; hour += 1) {
      const length = Math.hypot(year.east[hour]!, year.north[hour]!, year.up[hour]!);
      if (year.sunlitShare[hour]! > 0) {
        expectClose(length, 1, 1e-8);
        expectClose(Math.cos(year.zenith_deg[hour]! * rad), year.up[hour]!, 1e-9);
        expectClose(
          Math.sin(year.zenith_deg[hour]! * rad) * Math.sin(year.azimuth_deg[hour]! * rad),
          year.east[hour]!,
          1e-9,
        );
      } else {
        expect(length).toBe(0);
        expect(year.zenith_deg[hour]).toBeNaN();
        expect(year.azimuth_deg[hour]).toBeNaN();
      }
      expect(Math.abs(year.hourAngle_deg[hour]!)).toBeLessThanOrEqual(180);
      expect(Math.abs(year.declination_deg[hour]!)).toBeLessThan(23.45);
    }
  });

  it("knows polar night and midnight sun, and half a year of light at the pole", () => {
    const year = sunYear(site(70, 25, 2, 2026));
    expect(sum(year.sunlitShare.slice(354 * 24, 356 * 24))).toBe(0);
    expect(sum(year.sunlitShare.slice(170 * 24, 173 * 24))).toBe(72);
    const pole = sunYear(site(90, 0, 0, 2026));
    // March to September equinox takes 186.4 days (astronomical almanacs, from memory).
    expectClose(sum(pole.sunlitShare) / 24, 186.4, 0.002);
  });

  it("shifts the day, not the light, where the clock is far from the sun", () => {
    const near = sunYear(site(45, 30, 2, 2026));
    const far = sunYear(site(45, 30, -10, 2026));
    expectClose(sum(far.sunlitShare), sum(near.sunlitShare), 1e-3);
    expect(far.sunlitShare[172 * 24]).toBe(1); // midnight on the clock, noon in the sky
    expectClose(far.up[172 * 24]!, near.up[172 * 24 + 12]!, 1e-6);
  });

  it("leaves out 29 February", () => {
    const leap = sunYear(site(35, 0, 0, 2024));
    const observer = { ...site(35, 0, 0, 2024), pressure_mbar: 0, ambient_C: 0, deltaT_s: deltaT_s(2024.5) };
    const declination = (month: number, day: number) =>
      solarPosition(Date.UTC(2024, month, day, 12, 30), observer).geocentric.declination_deg;
    // A day moves the declination by 0.38 degrees.
    expect(Math.abs(leap.declination_deg[58 * 24 + 12]! - declination(1, 28))).toBeLessThan(0.0027);
    expect(Math.abs(leap.declination_deg[59 * 24 + 12]! - declination(2, 1))).toBeLessThan(0.0027);
  });
});

describe("litPart(start, cosSunset)", () => {
  it("takes the part of the hour between sunrise and sunset", () => {
    expectClose(litPart(-97.5, 0).share, 0.5, 1e-12);
    expectClose(litPart(-97.5, 0).middle_h, 0.75, 1e-12);
    expectClose(litPart(85, 0).share, 1 / 3, 1e-12);
    expect(litPart(-97.5 + 360, 0)).toEqual(litPart(-97.5, 0));
    expect(litPart(0, 1.2).share).toBe(0);
    expect(litPart(172, -1.2)).toEqual({ share: 1, middle_h: 0.5 });
    expect(litPart(0, Number.NaN).share).toBe(0);
  });

  it("adds both parts where the sun sets and rises within the hour", () => {
    const cosSunset = Math.cos(176 * rad);
    const part = litPart(171, cosSunset);
    expectClose(part.share, 7 / 15, 1e-12);
    expectClose(part.middle_h, 2.5 / 15, 1e-12);
  });

  it("takes a day shorter than an hour whole", () => {
    const part = litPart(-7.5, Math.cos(3 * rad));
    expectClose(part.share, 6 / 15, 1e-12);
    expectClose(part.middle_h, 0.5, 1e-12);
  });
});
