import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { largest, sum } from "../../../src/core/series.ts";
import type { Site } from "../../../src/core/study/schema/study.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import { closureOf } from "../../../src/core/sun/weather-figures.ts";
import { clockShift_h } from "../../../src/formats/weather/checks/clock-shift.ts";
import { readWeather } from "../../../src/formats/weather/read-weather.ts";
import { writePlainWeather } from "../../../src/formats/weather/write-plain-weather.ts";
import { expectPrinted } from "../../support/close.ts";
import { phoenix } from "./clear-year.ts";
import { bytesOf, differences, faults, wellRead } from "./support.ts";

// Source: public typical years named in the README of the shared data, which gives the figures; computed there apart.
const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../../shared", import.meta.url));
const path = (name: string) => `${shared}/data/weather/${name}`;
const phoenixTmy3 = "USA_AZ_Phoenix_722780_TMY3.csv";
const phoenixEpw = "USA_AZ_Phoenix_722780_TMY3.epw";
const sites: Record<string, { site: Site; ghi: string; dni: string; dhi?: string }> = {
  [phoenixTmy3]: { site: phoenix, ghi: "2094", dni: "2524", dhi: "564" },
  [phoenixEpw]: { site: phoenix, ghi: "2094", dni: "2524", dhi: "564" },
  "USA_TX_ElPaso_722700_TMY3.csv": { site: at(31.77, -106.5, 1186, -7), ghi: "2065", dni: "2430" },
  "USA_CO_Denver_725650_TMY3.epw": { site: at(39.83, -104.65, 1650, -7), ghi: "1670", dni: "1978" },
  "USA_AK_SandPoint_703165_TMY3.csv": { site: at(55.317, -160.517, 7, -9), ghi: "829", dni: "819" },
};

function at(latitude_deg: number, longitude_deg: number, elevation_m: number, utcOffset_h: number): Site {
  return { ...phoenix, latitude_deg, longitude_deg, elevation_m, utcOffset_h, timeZone: "Etc/UTC" };
}

function readReal(name: string, site = sites[name]!.site, distanceAccepted_km = 0) {
  return readWeather(readFileSync(path(name)), { file: name, site, distanceAccepted_km });
}

describe("real weather files", () => {
  for (const [name, { site, ghi, dni, dhi }] of Object.entries(sites))
    it.skipIf(!existsSync(path(name)))(`${name} has its figures, no findings, and the sun's noon`, () => {
      const { year, findings } = wellRead(readReal(name));
      expect(findings).toEqual([]);
      expectPrinted(sum(year.ghi_W_m2) / 1000, ghi);
      expectPrinted(sum(year.dni_W_m2) / 1000, dni);
      if (dhi !== undefined) expectPrinted(sum(year.dhi_W_m2) / 1000, dhi);
      // The README's 2.9 W/m² is with the sun at mid-hour; over the sunlit part the three agree better.
      expect(closureOf(year, sunYear(site)).meanAbsolute_W_m2).toBeLessThan(2.9);
      expect(Math.abs(clockShift_h(year.ghi_W_m2, sunYear(site), site.latitude_deg))).toBeLessThan(0.2);
    });

  it.skipIf(!existsSync(path(phoenixTmy3)))(
    "Phoenix: EPW and TMY3 of the same year agree in every hour",
    () => {
      const tmy3 = wellRead(readReal(phoenixTmy3)).year;
      const epw = wellRead(readReal(phoenixEpw)).year;
      expectPrinted(sum(tmy3.ambient_C) / 8760, "23.8");
      expect(differences(tmy3, epw)).toEqual({
        ghi_W_m2: 0,
        dni_W_m2: 0,
        dhi_W_m2: 0,
        ambient_C: 0,
        humidity_share: 0,
        wind_m_s: 0,
        pressure_Pa: 0,
      });
      expect(tmy3.station).toMatchObject({ latitude_deg: 33.45, utcOffset_h: -7, elevation_m: 337 });
    },
  );

  it.skipIf(!existsSync(path("USA_CO_Denver_725650_TMY3.epw")))("Denver: −19 to 40 °C", () => {
    const { year } = wellRead(readReal("USA_CO_Denver_725650_TMY3.epw"));
    expectPrinted(largest(year.ambient_C), "40");
    expectPrinted(-largest(year.ambient_C.map((value) => -value)), "-19");
  });

  it.skipIf(!existsSync(path(phoenixTmy3)))("Phoenix: written as plain CSV it reads back the same", () => {
    const { year } = wellRead(readReal(phoenixTmy3));
    const again = wellRead(readWeather(bytesOf(writePlainWeather(year)), { file: "w.csv", site: phoenix }));
    expect(again.year).toEqual(year);
  });

  it.skipIf(!existsSync(path(phoenixTmy3)))(
    "Phoenix: a site in the other half of the earth, of the other sign or elsewhere is refused by the file's head",
    () => {
      const first = (change: Partial<Site>) => faults(readReal(phoenixTmy3, { ...phoenix, ...change }))[0];
      expect(first({ latitude_deg: -33.45 })).toContain("with the sign of the latitude turned");
      expect(first({ longitude_deg: 111.98, utcOffset_h: 7 })).toContain(
        "with the sign of the longitude turned",
      );
      expect(first({ latitude_deg: 39.83, longitude_deg: -104.65 })).toContain("up to 100 km is allowed");
    },
  );

  it.skipIf(!existsSync(path(phoenixTmy3)))(
    "Phoenix: 15° of longitude too far east or west is told as a clock 1 h off",
    () => {
      for (const [away_deg, told] of [
        [15, "1.0 h after the sun's noon"],
        [-15, "1.0 h before the sun's noon"],
      ] as const) {
        const site = { ...phoenix, longitude_deg: phoenix.longitude_deg + away_deg };
        const sentences = faults(readReal(phoenixTmy3, site, 2000));
        expect(sentences[0]).toContain(told);
        expect(sentences[0]).toContain("shifted by about 1 h");
      }
    },
  );
});
