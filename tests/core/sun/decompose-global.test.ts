import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { standardPressure_Pa } from "../../../src/core/air/psychrometrics.ts";
import { sum } from "../../../src/core/series.ts";
import { decomposeGlobal, persistenceDiffuseShare } from "../../../src/core/sun/decompose-global.ts";
import { extraterrestrialHorizontal_W_m2 } from "../../../src/core/sun/extraterrestrial.ts";
import { clearBeam_W_m2 } from "../../../src/core/sun/radiation.ts";
import { type SunSite, sunYear } from "../../../src/core/sun/sun-year.ts";
import { readWeather } from "../../../src/formats/weather/read-weather.ts";
import { expectClose } from "../../support/close.ts";

const dry = { latitude_deg: 25, longitude_deg: 52, elevation_m: 20, utcOffset_h: 3, calendarYear: 2026 };
const cold = { latitude_deg: -68, longitude_deg: -70, elevation_m: 9, utcOffset_h: 5, calendarYear: 2026 };

describe("persistenceDiffuseShare(hour)", () => {
  const noon = { solarTime_h: 12, height_deg: 60 };
  const even = (k: number) => ({ ...noon, hourClearness: k, dayClearness: k, persistence: k });

  // By hand from the published coefficients (Ridley, Boland & Lauret 2010, from memory).
  it("is the published logistic curve", () => {
    // −5.38 + 0.072 − 0.42 = −5.728, and 9.69 for each unit of an even clearness
    expectClose(persistenceDiffuseShare(even(0)), 1 / (1 + Math.exp(-5.728)), 1e-12);
    expectClose(persistenceDiffuseShare(even(0.5)), 1 / (1 + Math.exp(-5.728 + 4.845)), 1e-12);
  });

  // What the paper and its forerunner (Boland et al. 2008) report of the fit.
  it("is nearly all diffuse under a closed sky and nearly all beam in a clear one", () => {
    expect(persistenceDiffuseShare(even(0.1))).toBeGreaterThan(0.95);
    expect(persistenceDiffuseShare(even(0.8))).toBeLessThan(0.15);
  });
  it("falls with each clearness and with the sun's height, and lies between 0 and 1", () => {
    const k = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(k, k, k, fc.double({ min: 3, max: 89, noNaN: true }), (a, b, c, height_deg) => {
        const hour = { hourClearness: a, dayClearness: b, persistence: c, solarTime_h: 10, height_deg };
        const share = persistenceDiffuseShare(hour);
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(1);
        for (const name of ["hourClearness", "dayClearness", "persistence"] as const)
          expect(persistenceDiffuseShare({ ...hour, [name]: hour[name] + 0.05 })).toBeLessThan(share);
        expect(persistenceDiffuseShare({ ...hour, height_deg: height_deg + 1 })).toBeGreaterThan(share);
      }),
    );
  });
});

describe("decomposeGlobal(ghi, sun, site, by)", () => {
  const random = fc.double({ min: 0, max: 1, noNaN: true });
  for (const by of ["erbs", "persistence"] as const)
    it(`by ${by}: the three agree in every hour, and the beam keeps below very clear air's`, () => {
      for (const site of [dry, cold]) {
        const sun = sunYear(site);
        const above = extraterrestrialHorizontal_W_m2(sun, site.latitude_deg);
        fc.assert(
          fc.property(fc.array(random, { minLength: 50, maxLength: 50 }), (clearness) => {
            const ghi = above.map((value, t) => value * clearness[t % 50]!);
            const { dni_W_m2, dhi_W_m2 } = decomposeGlobal(ghi, sun, site, by);
            for (let t = 0; t < 8760; t += 1) {
              const [dni, dhi] = [dni_W_m2[t]!, dhi_W_m2[t]!];
              if (!(Math.abs(ghi[t]! - dhi - dni * sun.up[t]!) < 1e-9 && dni >= 0 && dhi >= 0))
                throw new Error(`hour ${t}: ${ghi[t]} ${dni} ${dhi}`);
              if (dni === 0) continue;
              const clear = clearBeam_W_m2(
                sun.extraterrestrialNormal_W_m2[t]!,
                sun.zenith_deg[t]!,
                standardPressure_Pa(site.elevation_m),
                2,
              );
              if (dni > clear * sun.sunlitShare[t]! + 1e-9) throw new Error(`hour ${t}: ${dni}`);
            }
          }),
          { numRuns: 5 },
        );
      }
    });

  it("knows the same day whatever the clock says: a day is the sun's", () => {
    const utc = { ...dry, longitude_deg: 178, utcOffset_h: 12 };
    const far = { ...utc, utcOffset_h: 0 };
    const ghiOf = (site: SunSite) => {
      const above = extraterrestrialHorizontal_W_m2(sunYear(site), site.latitude_deg);
      return above.map((value, t) => value * (0.5 + 0.2 * Math.sin(t - site.utcOffset_h)));
    };
    const one = decomposeGlobal(ghiOf(utc), sunYear(utc), utc, "persistence").dni_W_m2;
    const other = decomposeGlobal(ghiOf(far), sunYear(far), far, "persistence").dni_W_m2;
    // The year's ends differ by the twelve hours that wrap.
    for (let t = 48; t < 8700; t += 1) expectClose(other[t - 12]!, one[t]!, 1e-6);
  });

  it("leaves a missing hour missing", () => {
    const sun = sunYear(dry);
    const ghi = extraterrestrialHorizontal_W_m2(sun, 25).map((value) => value / 2);
    ghi[12] = Number.NaN;
    const { dni_W_m2, dhi_W_m2 } = decomposeGlobal(ghi, sun, dry, "erbs");
    expect([dni_W_m2[12], dhi_W_m2[12]]).toEqual([Number.NaN, Number.NaN]);
    expect(dni_W_m2.filter(Number.isNaN).length).toBe(1);
  });
});

// Source: public typical years named in the README of the shared data. Their beam is modelled for most hours.
const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../../shared", import.meta.url));
const page = readFileSync(new URL("../../../docs/methods/decomposition.md", import.meta.url), "utf8");
const places: readonly [name: string, file: string, site: SunSite][] = [
  ["Phoenix", "USA_AZ_Phoenix_722780_TMY3.csv", at(33.45, -111.983, 337, -7)],
  ["El Paso", "USA_TX_ElPaso_722700_TMY3.csv", at(31.77, -106.5, 1186, -7)],
  ["Denver", "USA_CO_Denver_725650_TMY3.epw", at(39.83, -104.65, 1650, -7)],
  ["Sand Point", "USA_AK_SandPoint_703165_TMY3.csv", at(55.317, -160.517, 7, -9)],
];

function at(latitude_deg: number, longitude_deg: number, elevation_m: number, utcOffset_h: number): SunSite {
  return { latitude_deg, longitude_deg, elevation_m, utcOffset_h, calendarYear: 2025 };
}

describe("beam estimated from the global light of real files", () => {
  for (const [name, file, place] of places) {
    const path = `${shared}/data/weather/${file}`;
    it.skipIf(!existsSync(path))(`${name}: the table of docs/methods/decomposition.md`, () => {
      const site = { ...place, name, timeZone: "Etc/UTC" };
      const read = readWeather(readFileSync(path), { file, site });
      if (!read.ok) throw new Error("the file must be read");
      const { ghi_W_m2, dni_W_m2 } = read.value;
      const sun = sunYear(site);
      const cells = (["erbs", "persistence"] as const).flatMap((by) => {
        const estimated = decomposeGlobal(ghi_W_m2, sun, site, by).dni_W_m2;
        const lit = Array.from(sun.up.keys()).filter((t) => sun.up[t]! > 0);
        const errors = Float64Array.from(lit, (t) => estimated[t]! - dni_W_m2[t]!);
        const rootMeanSquare = Math.sqrt(sum(errors.map((error) => error * error)) / lit.length);
        const off = (sum(estimated) / sum(dni_W_m2) - 1) * 100;
        // The sentence of the finding: a quarter of the year, 100 W/m² of an hour.
        expect(Math.abs(off)).toBeLessThan(25);
        return [`${off > 0 ? "+" : "−"}${Math.abs(off).toFixed(1)} %`, rootMeanSquare.toFixed(0)];
      });
      expect(page).toContain(`| ${[name, (sum(dni_W_m2) / 1000).toFixed(0), ...cells].join(" | ")} |`);
    });
  }
});
